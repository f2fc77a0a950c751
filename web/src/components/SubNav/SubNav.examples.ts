import { example } from "../example";
import SubNav from "./SubNav.svelte";

export const examples = [
  example(
    SubNav,
    "two screens",
    {
      label: "Water",
      links: [
        { href: "#/water", name: "Filter", current: true },
        { href: "#/water/changes", name: "Water changes", current: false },
      ],
    },
    ["Filter", "Water changes"],
  ),
  example(SubNav, "long words", {
    label: "Brood",
    links: ["An unusually long name of a screen that has to wrap", "Short", "Donaudampfschiffahrtsgesellschaft"].map(
      (name, index) => ({ href: `#/brood/${index}`, name, current: index === 2 }),
    ),
  }),
];
