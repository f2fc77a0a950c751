import { afterEach, describe, expect, it } from "vitest";
import { longDay, shortDay } from "./days";
import { rangeText } from "./charts/drawing";
import { drawnIn, waterShown } from "./charts/day_chart";
import type { WaterQuantity } from "./contract";
import { reader } from "./state/reader.svelte";
import {
  figure,
  heightText,
  shownIn,
  temperatureChangeText,
  temperatureText,
  typedTemperature,
  typedVolume,
  unitsOfReader,
  volumeText,
} from "./units";

afterEach(() => Object.assign(reader, { language: "en", units: "metric" }));

describe("what a reader sees", () => {
  it("is °C and litres inside and for most", () => {
    expect(temperatureText(8)).toBe("8.0\u00a0°C");
    expect(temperatureChangeText(2)).toBe("2.0\u00a0°C");
    expect(volumeText(180.4)).toBe("180\u00a0L");
    expect(heightText(640)).toBe("640\u00a0m");
    expect(typedTemperature(8)).toBe(8);
    expect(typedVolume(50)).toBe(50);
    expect(unitsOfReader().temperature).toBe(false);
  });

  it("is °F and gallons at will", () => {
    reader.units = "us";
    expect(temperatureText(8)).toBe("46.4\u00a0°F");
    expect(temperatureChangeText(2)).toBe("3.6\u00a0°F");
    expect(volumeText(200)).toBe("53\u00a0US gal");
    expect(heightText(640)).toBe("2100\u00a0ft");
    expect(typedTemperature(46.4)).toBeCloseTo(8, 9);
    expect(typedVolume(1)).toBeCloseTo(3.785411784, 9);
    expect(unitsOfReader()).toMatchObject({ temperature: true, volume: true });
    expect(shownIn("mg/L as N").of(0.5)).toBe(0.5);
    expect(shownIn("°C").unit).toBe("°F");
  });

  it("has a decimal comma and Spanish months in Spanish", () => {
    expect(rangeText(0.1, 0.25)).toBe("0.1 to 0.25");
    expect(longDay("2031-02-14")).toBe("Friday 14 February 2031");
    reader.language = "es";
    expect(figure("0.25")).toBe("0,25");
    expect(temperatureText(8.5)).toBe("8,5\u00a0°C");
    expect(longDay("2031-02-14")).toBe("viernes 14 de febrero de 2031");
    expect(shortDay("2031-02-14")).toBe("14 feb");
  });
});

describe("a drawing", () => {
  it("takes traces, marks and limits over, gaps as gaps", () => {
    reader.units = "us";
    const { of } = shownIn("°C");
    const drawn = drawnIn(
      of,
      [{ key: "t", name: "T", days: ["2031-02-14", "2031-02-15"], mid: [10, null], low: [0, null], high: [20, null] }],
      [{ day: "2031-02-14", low: 5, mid: 10, high: 15, text: "" }],
      [{ key: "high", value: 15, name: "warm" }],
    );
    expect(drawn.traces[0]).toMatchObject({ mid: [50, null], low: [32, null], high: [68, null] });
    expect(drawn.marks[0]).toMatchObject({ low: 41, mid: 50, high: 59 });
    expect(drawn.limits[0]?.value).toBe(59);
  });

  it("leaves an open reading open", () => {
    reader.units = "us";
    const water = {
      unit_text: "°C",
      latest: null,
      series: [{ low: 10, mid: 15, high: null }],
      limits: [],
      axis: { min: 0, max: 20 },
      baseline: null,
    } as unknown as WaterQuantity;
    expect(waterShown(water)).toMatchObject({ axis: { min: 32, max: 68 }, series: [{ low: 50, mid: 59, high: null }] });
  });
});
