import type { Measure } from "../api/client";

/** The header of a logger's file. */
export interface Columns {
  delimiter: string;
  /** from 1 */
  header_line: number;
  names: string[];
}

const most_looked_at = 30; // chosen: notes of loggers above the header are shorter

/** Fields of one line; quoted ones may hold the delimiter and doubled quotes. */
export function split(line: string, delimiter: string): string[] {
  const fields: string[] = [];
  let field = "";
  let quoted = false;
  for (let i = 0; i < line.length; ++i) {
    const sign = line[i]!;
    if (quoted && sign === '"' && line[i + 1] === '"') (field += '"'), ++i;
    else if (sign === '"') quoted = !quoted;
    else if (sign === delimiter && !quoted) fields.push(field.trim()), (field = "");
    else field += sign;
  }
  return [...fields, field.trim()];
}

/** The first line with the most named fields is the header; notes above it have fewer. */
export function columnsOf(text: string): Columns {
  const lines = text.replace(/^\ufeff/, "").split(/\r?\n/, most_looked_at);
  let best: Columns = { delimiter: ",", header_line: 1, names: split(lines[0] ?? "", ",") };
  for (const delimiter of [",", ";", "\t"]) {
    const counts = lines.map((line) => split(line, delimiter).filter(Boolean).length);
    const most = Math.max(...counts);
    const at = counts.indexOf(most);
    if (most > best.names.length || (most === best.names.length && delimiter === best.delimiter))
      best = { delimiter, header_line: at + 1, names: split(lines[at] ?? "", delimiter) };
  }
  return best;
}

interface Guess {
  time: string;
  date: string;
  pattern: string;
  comma: boolean;
  probes: { column: string; taken: boolean; measure: Measure; unit: string; place: string }[];
}

const measureOf = (name: string): Measure | null => {
  if (/temp|[°(\s]*deg|°|\b[TC]\d|\(([CF])\)/i.test(name)) return "temperature";
  if (/moist|humid|water/i.test(name)) return "moisture";
  if (/co2|carbon/i.test(name)) return "carbon_dioxide";
  if (/\bo2\b|oxygen/i.test(name)) return "oxygen";
  if (/\bec\b|conduct/i.test(name)) return "conductivity";
  if (/\bph\b/i.test(name)) return "acidity";
  return null;
};

/** What the names of the columns suggest; whoever takes the file in can change all of it. */
export function guess(columns: Columns, us: boolean): Guess {
  const time = columns.names.find((name) => /time|stamp|uhr|hora|heure/i.test(name)) ?? columns.names[0] ?? "";
  const date = columns.names.find((name) => name !== time && /^date|datum|fecha/i.test(name)) ?? "";
  const probes = columns.names
    .filter((name) => name && name !== time && name !== date)
    .map((column) => {
      const measure = measureOf(column);
      const fahrenheit = /°F|degF|\(F\)|fahr/i.test(column) || (us && !/°C|degC|\(C\)|cels/i.test(column));
      return {
        column,
        taken: measure !== null,
        measure: measure ?? ("temperature" as Measure),
        unit:
          measure === null || measure === "temperature"
            ? fahrenheit
              ? "degF"
              : "degC"
            : measure === "conductivity"
              ? "dS/m"
              : measure === "acidity"
                ? "pH"
                : "%",
        place: "core",
      };
    });
  const taken = probes.filter((one) => one.taken);
  // Two probes at one place and moment would refuse each other: each gets the name of its column instead.
  if (taken.filter((one) => one.measure === "temperature").length > 1) for (const one of taken) one.place = one.column;
  return { time, date, pattern: "iso", comma: columns.delimiter === ";", probes };
}
