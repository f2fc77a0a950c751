// La temporada como tablas, para otros programas.
import type { tables as Shape } from "../en/tables";

export const tables: typeof Shape = {
  title: "Para hojas de cálculo y organismos",
  how: "Para ver los números en otros programas. El archivo de arriba sigue siendo su copia.",
  zip: "Toda la temporada en tablas CSV (.zip)",
  zipHelp:
    "Una tabla para cada clase de entrada, y datapackage.json, que dice qué significa cada columna y en qué unidad está. La línea de comandos también vuelve a leer las tablas.",
  wqx: "Pruebas de agua en una tabla larga (.csv)",
  wqxHelp:
    "Con los nombres de columna de las convenciones públicas WQX, en inglés. Cada color de la carta lleva el intervalo que significa. Las columnas para los identificadores del organismo están vacías: complételas antes de enviarla.",
};
