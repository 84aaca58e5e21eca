import type { SiteProposal } from "../api/client";
import { button, h } from "../ui/dom";
import { saveFile } from "../ui/save-file";
import { t } from "../words/words";

/** The site file's lines before and after, and the whole file to keep; its comments are as they were. */
export function proposalPart(found: SiteProposal): HTMLElement {
  if (!found.lines.length) return h("p", {}, t.proposal.same);
  const lines = found.lines.map((one) =>
    one.sign === "-"
      ? h("del", {}, h("span", { class: "sr" }, `${t.proposal.before}: `), `− ${one.text}`)
      : h("ins", {}, h("span", { class: "sr" }, `${t.proposal.after}: `), `+ ${one.text}`),
  );
  return h(
    "section",
    { class: "panel proposal", "aria-labelledby": "proposal-title" },
    h("h2", { id: "proposal-title" }, t.proposal.headProposal),
    h("div", { class: "file-lines", tabindex: "0", role: "group", "aria-labelledby": "proposal-title" }, ...lines),
    button(t.proposal.save(found.file), () => saveFile(found.file, new Blob([found.text], { type: "text/plain" }))),
    h("p", { class: "why" }, t.proposal.how(found.file)),
  );
}
