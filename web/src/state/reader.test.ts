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

  it("does without a choice it does not know", async () => {
    localStorage.setItem("redd.reader", JSON.stringify({ language: "xx", units: 7 }));
    const { reader } = await fresh("es-MX");
    expect({ ...reader }).toEqual({ language: "es", units: "metric" });
  });
});
