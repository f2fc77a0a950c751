import { preview } from "../../fixtures/table";
import { t } from "../../messages";
import { example } from "../example";
import TableQuestions from "./TableQuestions.svelte";

const onanswer = () => undefined;
const of = (...keys: string[]) => preview.guesses.filter(({ key }) => keys.includes(key));
const headers = preview.columns.map(({ header }) => header);
export const examples = [
  example(TableQuestions, "one is open", { guesses: of("date_order"), headers, onanswer }, [
    t.table.choose,
    t.table.answer("", "dmy"),
  ]),
  example(
    TableQuestions,
    "to look over",
    { guesses: of("delimiter", "time_zone", "time_of_day", "unit"), headers, onanswer },
    [t.table.question("delimiter"), "America/Denver"],
  ),
  example(TableQuestions, "none", { guesses: [], headers, onanswer }),
];
