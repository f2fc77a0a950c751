import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";

const fresh = async (language: string) => {
  vi.resetModules();
  vi.stubGlobal("navigator", { language });
  return import("./reader.svelte");
};

beforeEach(() => localStorage.clear());
afterEach(() => vi.unstubAllGlobals());

describe("reader", () => {
  it("begins with what the browser's language suggests", async () => {
    const { likelyReader } = await fresh("en-GB");
    expect(likelyReader("en-GB")).toEqual({ language: "en", units: "metric" });
    expect(likelyReader("en-US")).toEqual({ language: "en", units: "us" });
    expect(likelyReader("es-US")).toEqual({ language: "es", units: "us" });
    expect(likelyReader("es-Latn-US")).toEqual({ language: "es", units: "us" });
    expect(likelyReader("es")).toEqual({ language: "es", units: "metric" });
    expect(likelyReader("fr-CA")).toEqual({ language: "en", units: "metric" });
  });

  it("keeps what was chosen over what the browser suggests", async () => {
    const first = await fresh("en-US");
    expect(first.readerHeaders()).toEqual({ "accept-language": "en", "redd-units": "us" });
    first.chooseReader({ language: "es" });
    const later = await fresh("en-GB");
    expect(later.readerHeaders()).toEqual({ "accept-language": "es", "redd-units": "us" });
    expect(later.readerParameters()).toEqual({ language: "es", units: "us" });
  });

  it("forgets the units remembered for single forms once units are chosen", async () => {
    const { chooseReader } = await fresh("en-GB");
    localStorage.setItem("redd.units", JSON.stringify({ temperature: false }));
    chooseReader({ language: "es" });
    expect(localStorage.getItem("redd.units")).not.toBeNull();
    chooseReader({ units: "us" });
    expect(localStorage.getItem("redd.units")).toBeNull();
  });

  it("takes what the address says where the browser keeps nothing", async () => {
    vi.stubGlobal("location", { search: "?language=es&units=us" });
    const { reader } = await fresh("en-GB");
    expect({ ...reader }).toEqual({ language: "es", units: "us" });
    vi.stubGlobal("location", { search: "?language=xx" });
    expect({ ...(await fresh("en-GB")).reader }).toEqual({ language: "en", units: "metric" });
  });

  it("loads the page anew with a choice, by the address where the browser keeps nothing", async () => {
    const place = { search: "", reload: vi.fn() };
    vi.stubGlobal("location", place);
    const { chooseAnew } = await fresh("en-GB");
    chooseAnew({ language: "es" });
    expect(place.reload).toHaveBeenCalledOnce();
    vi.stubGlobal("localStorage", undefined);
    chooseAnew({ units: "us" });
    expect(place.reload).toHaveBeenCalledOnce();
    expect(place.search).toBe("language=es&units=us");
  });

  it("does without a choice it does not know", async () => {
    localStorage.setItem("redd.reader", JSON.stringify({ language: "xx", units: 7 }));
    const { reader } = await fresh("es-MX");
    expect({ ...reader }).toEqual({ language: "es", units: "metric" });
  });
});
