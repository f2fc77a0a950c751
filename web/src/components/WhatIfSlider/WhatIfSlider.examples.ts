import { example } from "../example";
import WhatIfSlider from "./WhatIfSlider.svelte";

const onmove = () => undefined;
const room = { low: -10, high: 15, as_planned: 0, step: 0.5, now: 19.4 };
export const examples = [
  example(
    WhatIfSlider,
    "as it is",
    { name: "the room", range: room, value: 0, words: "as it is: about 19.4 °C", onmove },
    ["as it is"],
  ),
  example(
    WhatIfSlider,
    "moved, with a note",
    {
      name: "food for each fry",
      range: { low: 0, high: 2, as_planned: 1, step: 0.05, now: null },
      value: 1.3,
      words: "130 % of what is planned",
      note: "No fry eat within these weeks.",
      onmove,
    },
    ["130 %", "No fry eat"],
  ),
  example(WhatIfSlider, "at its end, a long name", {
    name: "the room beside the kitchen with the large windows to the south",
    range: room,
    value: 15,
    words: "15 °C warmer: about 34.4 °C",
    onmove,
  }),
];
