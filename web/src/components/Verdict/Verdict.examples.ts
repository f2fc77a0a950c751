import { example } from "../example";
import Verdict from "./Verdict.svelte";

export const examples = [
  example(
    Verdict,
    "act",
    {
      id: "v1",
      tone: "act" as const,
      sentence: "Change 30 litres on Thursday.",
      details: ["Invented for this example."],
    },
    ["Do today", "Change 30 litres on Thursday."],
  ),
  example(
    Verdict,
    "not known",
    { id: "v2", tone: "unknown" as const, sentence: "Nothing was measured yet.", word: "Open" },
    ["Open"],
  ),
  example(Verdict, "words without end", {
    id: "v3",
    tone: "alarm" as const,
    sentence: "unbroken-".repeat(30),
    details: ["", "a ".repeat(200)],
  }),
];
