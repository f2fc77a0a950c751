import { kit } from "../../fixtures/kits";
import { timedStepDraft } from "../../forms/kit_draft";
import { example } from "../example";
import TimedStepsEditor from "./TimedStepsEditor.svelte";

export const examples = [
  example(
    TimedStepsEditor,
    "five steps",
    {
      steps: (kit.tests[0]?.timed_steps ?? []).map(timedStepDraft),
      id: "gallery-five",
    },
    ["Step 5", "Read within so many seconds"],
  ),
  example(TimedStepsEditor, "none yet", { steps: [], id: "gallery-none" }, ["Add a step"]),
];
