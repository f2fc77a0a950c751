import { day, firstDay } from "../../fixtures/day";
import { answerOf } from "../../forms/answer";
import { t } from "../../messages";
import { example } from "../example";
import ChangedAnswer from "./ChangedAnswer.svelte";

const before = answerOf(firstDay, "nitrite");
const after = answerOf(day, "nitrite");
export const examples = [
  example(ChangedAnswer, "changed", { saved: "Saved.", before, after }, [
    t.log.changed,
    t.log.before,
    day.headline.sentence,
  ]),
  example(ChangedAnswer, "the same", { saved: "Saved.", before: after, after }, [t.log.unchanged]),
];
