import { day } from "../../fixtures/day";
import { t } from "../../messages";
import { example } from "../example";
import MilestoneList from "./MilestoneList.svelte";

export const examples = [
  example(MilestoneList, "seen, under way, expected", { milestones: day.milestones }, [
    "Half swimming up",
    "Spring break",
  ]),
  example(MilestoneList, "no eggs yet", { milestones: [] }, [t.season.noWindows]),
];
