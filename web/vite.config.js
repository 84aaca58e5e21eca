import { createHash } from "node:crypto";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { defineConfig } from "vite";

const out = "dist";

function filesBelow(folder) {
  return readdirSync(folder, { withFileTypes: true }).flatMap((one) =>
    one.isDirectory() ? filesBelow(join(folder, one.name)) : [join(folder, one.name)],
  );
}

/** Writes sw.js with the list of everything that was built; its hash makes browsers notice a new page. */
function serviceWorker() {
  return {
    name: "service-worker",
    apply: "build",
    closeBundle() {
      const files = filesBelow(out)
        .sort()
        .filter((file) => !file.endsWith("sw.js"));
      const hash = createHash("sha256");
      for (const file of files) hash.update(readFileSync(file));
      const paths = files.map((file) => `/${relative(out, file).replaceAll("\\", "/")}`);
      const list = ["/", ...paths.filter((path) => path !== "/index.html")];
      const source = readFileSync("src/worker/sw.js", "utf8")
        .replace("__VERSION__", hash.digest("hex").slice(0, 12))
        .replace('["__FILES__"]', JSON.stringify(list));
      writeFileSync(join(out, "sw.js"), source);
    },
  };
}

export default defineConfig({
  build: {
    outDir: out,
    target: "es2021",
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 900,
    assetsInlineLimit: 0,
  },
  plugins: [serviceWorker()],
  server: { proxy: { "/api": "http://localhost:8340" } },
});
