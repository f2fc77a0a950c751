// Every component in every example state, one below the other: for looking at while working, and for the browser test.
import { mount } from "svelte";
import type { Example } from "./components/example";
import "./styles/settings.css";
import "./styles/base.css";
import "./styles/print.css";

const files = import.meta.glob<{ examples: Example[] }>(["./components/*/*.examples.ts", "./charts/*/*.examples.ts"], {
  eager: true,
});
const place = document.getElementById("gallery");

for (const [file, { examples }] of Object.entries(files)) {
  const section = document.createElement("section");
  const title = document.createElement("h2");
  title.textContent = file.split("/").at(-2) ?? file;
  section.append(title);
  for (const one of examples) {
    const name = document.createElement("p");
    name.textContent = one.name;
    const frame = document.createElement(title.textContent === "HistoryRow" ? "ul" : "div");
    frame.dataset.example = `${title.textContent}: ${one.name}`;
    section.append(name, frame);
    mount(one.component, { target: frame, props: one.props });
  }
  place?.append(section);
}
