// Screens that are opened once a season or now and then, and are of no use without the server: one file, fetched when one of
// them is asked for.
export { default as Classroom } from "./Classroom.svelte";
export { default as FirstRun } from "./FirstRun.svelte";
export { default as SchoolCalendar } from "./SchoolCalendar.svelte";
export { default as Start } from "./Start.svelte";
export { default as TableIn } from "./TableIn.svelte";
export { default as ThermometerView } from "./ThermometerView.svelte";
