import { example } from "../example";
import AnswerSummary from "./AnswerSummary.svelte";

export const examples = [
  example(
    AnswerSummary,
    "some open, long words",
    {
      groups: [
        {
          key: "tank",
          title: "The tank",
          href: "#/setup/tank",
          rows: [
            { key: "volume", label: "Water in the tank", text: "55 US gal", open: false },
            { key: "first_day", label: "Day the tank was filled", text: "Today.", open: true },
          ],
        },
        {
          key: "school",
          title: "Your school",
          href: "#/setup/school",
          rows: [
            {
              key: "place",
              label: "School or place",
              text: "Donaudampfschiffahrtsgesellschaftskapitänsaquariumsschule (invented)",
              open: false,
            },
          ],
        },
      ],
    },
    ["55 US gal", "Not sure."],
  ),
];
