// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen } from "@testing-library/svelte";
import { afterEach, describe, expect, it, vi } from "vitest";
import { reader } from "../../state/reader.svelte";
import RecordForm from "./RecordForm.svelte";

afterEach(() => {
  cleanup();
  localStorage.clear();
  Object.assign(reader, { language: "en", units: "metric" });
});

const saves = () => vi.fn(async () => ({ ok: false as const, problems: [] }));
const form = (defaults: Record<string, string>, onsave: ReturnType<typeof saves>) =>
  render(RecordForm, {
    props: { kind: "set_point", timeZone: "America/Denver", defaults, onsave, ondone: () => undefined } as never,
  });
const save = () => fireEvent.click(screen.getByRole("button", { name: "Save" }));

describe("the unit a form begins in", () => {
  it("is °F for whoever measures so", async () => {
    reader.units = "us";
    const onsave = saves();
    form({}, onsave);
    await fireEvent.input(screen.getByRole("textbox", { name: /New setting/ }), { target: { value: "46.4" } });
    await save();
    expect(onsave).toHaveBeenCalledWith(expect.objectContaining({ body: { temperature_f: 46.4 } }));
  });

  it("is °C for a setting that is given beforehand: never read as °F", async () => {
    reader.units = "us";
    const onsave = saves();
    form({ temperature_c: "7.5" }, onsave);
    await save();
    expect(onsave).toHaveBeenCalledWith(expect.objectContaining({ body: { temperature_c: 7.5 } }));
  });
});
