import { example } from "../example";
import AskField from "./AskField.svelte";

const nothing = () => undefined;
const usual = { onvalue: nothing, onunsure: nothing, onunit: nothing };

export const examples = [
  example(
    AskField,
    "a choice",
    {
      ...usual,
      id: "ask-lid",
      label: "Lid",
      changes: "How much warmth comes in from above.",
      taken: "A plain sheet.",
      type: "choice" as const,
      value: "foam",
      options: [
        { value: "none", label: "None" },
        { value: "sheet", label: "A plain sheet" },
        { value: "foam", label: "Insulated" },
      ],
    },
    ["Lid", "Not sure"],
  ),
  example(
    AskField,
    "not sure",
    {
      ...usual,
      id: "ask-target",
      label: "Temperature for the eggs",
      changes: "The dates of hatching and swimming up.",
      taken: "8 °C.",
      type: "decimal" as const,
      value: "",
      unsure: true,
      units: ["°C", "°F"] as const,
    },
    ["Until you know: 8 °C."],
  ),
  example(
    AskField,
    "cannot be read, long words",
    {
      ...usual,
      id: "ask-long",
      label: "An unusually long question about the Donaudampfschiffahrtsgesellschaftskapitänsaquarium of the school",
      changes:
        "Much, and said in a long sentence that has to wrap on a narrow screen without pushing anything out of it.",
      taken: "Nothing.",
      type: "decimal" as const,
      value: "1,500",
      units: ["German degrees (KH)", "mg/L as CaCO₃"] as const,
      second: true,
      problem: "“1,500” can be read two ways. Write 1500 or 1.5.",
    },
    ["can be read two ways"],
  ),
  example(AskField, "days of the week", {
    ...usual,
    id: "ask-days",
    label: "Days with school",
    changes: "Hatching is planned on days when somebody is there.",
    taken: "Monday to Friday.",
    type: "weekdays" as const,
    value: "mon tue wed",
    options: ["mon", "tue", "wed", "thu", "fri", "sat", "sun"].map((value) => ({ value, label: value })),
  }),
];
