import { t } from "../../messages";
import { example } from "../example";
import StoryBar from "./StoryBar.svelte";

const props = { firstDay: "2030-08-19", lastDay: "2031-05-30", onday: () => undefined };
export const examples = [
  example(StoryBar, "in the middle", { ...props, day: "2031-01-30" }, [t.demo.mark, "30 January 2031"]),
  example(StoryBar, "on the first day", { ...props, day: "2030-08-19" }),
  example(StoryBar, "on the last day", { ...props, day: "2031-05-30" }),
];
