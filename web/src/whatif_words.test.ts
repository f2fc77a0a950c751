import { describe, expect, it } from "vitest";
import { whatIfBase } from "./fixtures/whatif";
import { sliderWords } from "./whatif_words";

const words = (name: Parameters<typeof sliderWords>[0], value: number) => sliderWords(name, value, whatIfBase);

describe("what a slider says", () => {
  it("tells as it is from moved, with units", () => {
    expect(words("room_warmer_c", 0)).toContain("as it is: 19.4\u00a0°C");
    expect(words("room_warmer_c", 6)).toMatch(/^6\.0\u00a0°C warmer: about 25\.4/);
    expect(words("room_warmer_c", -2)).toMatch(/^2.*colder: about 17\.4/);
    expect(words("set_point_warmer_c", 0)).toBe("as planned");
    expect(words("set_point_warmer_c", -1.5)).toMatch(/^1\.5.*colder than planned/);
  });

  it("counts animals and shares", () => {
    expect(words("animals_factor", 1)).toBe("as it is: 180");
    expect(words("animals_factor", 2)).toBe("2 times: 360");
    expect(words("animals_factor", 0.25)).toBe("0.25 times: 45");
    expect(words("food_factor", 1.3)).toBe("130 % of what is planned");
    expect(words("food_factor", 0)).toBe("no food");
    expect(words("weekly_change_fraction", 0)).toBe("no water changes");
    expect(words("weekly_change_fraction", 0.2)).toContain("as usual (taken): 20 %");
    expect(words("weekly_change_fraction", 0.35)).toBe("35 % of the tank");
  });
});
