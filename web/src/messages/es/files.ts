// Hojas y gráficos como archivos, del servidor.
import type { files as Shape } from "../en/files";

export const files: typeof Shape = {
  save: "Guardar como archivo",
  pdf: "PDF",
  classPdf: "PDF para la clase",
  html: "HTML",
  how: "PDF para el papel y el correo; HTML en un solo archivo para lectores de pantalla. Para la clase: los animales, las fechas y los gráficos.",
  saving: "Dibujando la hoja …",
  saved: (name) => `Guardado: ${name}`,
  chart: "El gráfico de la temporada como archivo:",
  chartAs: (chart, kind) => `${chart}, en ${kind}`,
};
