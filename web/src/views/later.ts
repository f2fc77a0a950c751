// Every screen but those that must stand at once (today, log, history, water, emergency): one file, fetched when the page
// is idle or when one of them is asked for.
export { default as Bench } from "./Bench.svelte";
export { default as Changes } from "./Changes.svelte";
export { default as Copies } from "./Copies.svelte";
export { default as Counts } from "./Counts.svelte";
export { default as FirstPlan } from "./FirstPlan.svelte";
export { default as Food } from "./Food.svelte";
export { default as Heat } from "./Heat.svelte";
export { default as Lessons } from "./Lessons.svelte";
export { default as Print } from "./Print.svelte";
export { default as Room } from "./Room.svelte";
export { default as Season } from "./Season.svelte";
export { default as SignIn } from "../components/SignIn/SignIn.svelte";
export { default as WallCalendar } from "./WallCalendar.svelte";
export { default as WhatIf } from "./WhatIf.svelte";
