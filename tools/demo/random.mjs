// Random numbers of our own, so that the same seed writes the same season on every machine and every Node.

/// A named stream: the same seed and name always give the same numbers, whatever other streams are used for.
export function stream(seed, name) {
  let state = seed >>> 0;
  for (const letter of name) state = Math.imul(state ^ letter.codePointAt(0), 0x01000193) >>> 0;

  // Weyl sequence with a 32-bit mixing step: short and even enough for a story.
  function unit() {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad) >>> 0;
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97) >>> 0;
    return ((z ^ (z >>> 15)) >>> 0) / 4294967296;
  }
  // Box and Muller 1958.
  function normal(sd = 1) {
    return sd * Math.sqrt(-2 * Math.log(1 - unit())) * Math.cos(2 * Math.PI * unit());
  }
  return { unit, normal, chance: (p) => unit() < p, pick: (list) => list[Math.floor(unit() * list.length)] };
}
