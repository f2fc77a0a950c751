// Por su propio camino y no junto al inglés: el archivo español no puede esperar a nada de la página que espera por él.
const rules = new Intl.PluralRules("es");

/** La palabra para un número: "1 huevo", "2 huevos". */
export const plural = (count: number, one: string, many: string) =>
  `${count} ${rules.select(count) === "one" ? one : many}`;
