import { longColumn, preview } from "../../fixtures/table";
import { t } from "../../messages";
import { example } from "../example";
import TableColumns from "./TableColumns.svelte";

const onchoose = () => undefined;
export const examples = [
  example(TableColumns, "a weekly log with one question", { preview, onchoose }, [
    "Nitrate",
    t.table.openColumn,
    "pH",
    t.table.date,
  ]),
  example(TableColumns, "very long headers, no cells", { preview: longColumn, onchoose }, ["–"]),
  example(TableColumns, "while it is read again", { preview, busy: true, onchoose }, ["Dead"]),
];
