import { sitting } from "../../fixtures/lessons";
import { example } from "../example";
import TeamDots from "./TeamDots.svelte";

const same = sitting.readings.map((reading) => ({ ...reading, value: 12 }));
export const examples = [
  example(TeamDots, "three teams", { sitting }, ["One step of the card"]),
  example(TeamDots, "all alike at nought", {
    sitting: { ...sitting, readings: same.map((one) => ({ ...one, value: 0 })), lowest: 0, highest: 0, mean: 0 },
  }),
  example(TeamDots, "a meter without a stated accuracy", { sitting: { ...sitting, step: 0 } }),
  example(TeamDots, "huge spread", {
    sitting: {
      ...sitting,
      readings: [...sitting.readings, { team: "Team Shrew", text: "above 96", value: 120, record_id: 214 }],
      highest: 120,
      mean: 40.5,
    },
  }),
];
