import { example } from "../example";
import TopBar from "./TopBar.svelte";

export const examples = [
  example(TopBar, "in a season", {
    current: "season" as const,
    season: "Hill school brook trout",
    place: "An invented hill school",
  }),
  example(TopBar, "no season", { current: "setup" as const, empty: true }),
  example(TopBar, "long names", {
    current: "today" as const,
    season: "Combined primary and lower secondary brook trout season ".repeat(3),
    place: "Llanfair".repeat(9),
  }),
];
