import { silent, tooWarm, working } from "../../fixtures/thermometer";
import { t } from "../../messages";
import { example } from "../example";
import ThermometerLine from "./ThermometerLine.svelte";

const now_ms = Date.parse("2031-01-30T15:13:00Z");
const onknow = () => undefined;
export const examples = [
  example(ThermometerLine, "working", { thermometer: working, now_ms, onknow }, [
    t.thermometer.now("8.1 °C", t.thermometer.minutesAgo(3)),
  ]),
  example(ThermometerLine, "too warm", { thermometer: tooWarm, now_ms, onknow }, ["12.5 °C", t.thermometer.know]),
  example(ThermometerLine, "silent, and somebody knows", { thermometer: silent, now_ms, onknow }, [
    t.thermometer.known,
  ]),
  example(
    ThermometerLine,
    "nothing yet",
    { thermometer: { ...working, standing: "no_word_yet", last: null } as const, now_ms, onknow },
    [t.thermometer.noWord],
  ),
  example(ThermometerLine, "the server does not answer", { thermometer: working, lost: true, now_ms, onknow }, [
    t.thermometer.lost,
  ]),
];
