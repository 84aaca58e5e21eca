/** Hands a file to the browser to keep. */
export function saveFile(name: string, content: Blob): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement("a");
  link.href = address;
  link.download = name.replace(/[^\p{L}\p{N}._ -]+/gu, "-");
  document.body.append(link);
  link.click();
  link.remove();
  window.setTimeout(() => URL.revokeObjectURL(address), 10000);
}

export type Cell = string | number | null;

/** Rows as CSV after RFC 4180: fields with commas, quotes or line breaks are quoted, lines end in CR LF; null is empty. What a
 *  spreadsheet would run as a formula is kept as text by an apostrophe before it. */
export function csvText(rows: readonly (readonly Cell[])[]): string {
  const field = (value: Cell): string => {
    if (value === null) return "";
    if (typeof value === "number") return Number.isFinite(value) ? String(value) : "";
    const harmless = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
    return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
  };
  return rows.map((row) => `${row.map(field).join(",")}\r\n`).join("");
}

export const saveCsv = (name: string, rows: readonly (readonly Cell[])[]): void =>
  saveFile(`${name}.csv`, new Blob([csvText(rows)], { type: "text/csv;charset=utf-8" }));
