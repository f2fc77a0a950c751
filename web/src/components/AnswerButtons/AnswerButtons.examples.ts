import { changeWater } from "../../fixtures/day";
import { t } from "../../messages";
import { example } from "../example";
import AnswerButtons from "./AnswerButtons.svelte";

export const examples = [
  example(AnswerButtons, "plain", { action: changeWater, today: "2031-01-30", onanswer: async () => [] }, [
    t.action.answers.done ?? "",
    t.action.answers.not_now ?? "",
    t.action.answers.skipped ?? "",
  ]),
];
