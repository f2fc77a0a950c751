import { outlook } from "../../fixtures/filter";
import { t } from "../../messages";
import { example } from "../example";
import DoubtList from "./DoubtList.svelte";

export const examples = [
  example(DoubtList, "two doubts", { doubts: outlook.doubts }, ["entry 104", "entry 96"]),
  example(DoubtList, "none", { doubts: [] }, [t.filter.noDoubts]),
  example(
    DoubtList,
    "many entries",
    {
      doubts: [
        { kind: "suspect_kit", sentence: "A kit ".repeat(60), record_ids: Array.from({ length: 30 }, (_, i) => i) },
      ],
    },
    ["and 22 more"],
  ),
];
