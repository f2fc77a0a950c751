// Every example of every component shows without an error and says what it must.
import { cleanup, render } from "@testing-library/svelte";
import { afterEach, describe, expect, it } from "vitest";
import type { Example } from "./example";

const files = import.meta.glob<{ examples: Example[] }>(["./*/*.examples.ts", "../charts/*/*.examples.ts"], {
  eager: true,
});

afterEach(() => {
  cleanup();
  localStorage.clear();
});

it("finds the examples", () => {
  expect(Object.keys(files).length).toBeGreaterThan(10);
});

for (const [file, { examples }] of Object.entries(files)) {
  describe(file.split("/").at(-2) ?? file, () => {
    it.each(examples.map((one) => [one.name, one] as const))("%s", (_, one) => {
      const { container } = render(one.component, { props: one.props });
      const text =
        `${container.textContent} ${[...container.querySelectorAll("[aria-label]")].map((e) => e.getAttribute("aria-label")).join(" ")}`.replace(
          /\s+/g,
          " ",
        );
      expect(text).not.toMatch(/undefined|NaN|\[object/);
      expect(container.innerHTML).not.toMatch(/NaN|Infinity/);
      for (const words of one.shows ?? []) expect(text).toContain(words.replace(/\s+/g, " "));
    });
  });
}
