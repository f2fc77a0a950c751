// Palabras del aviso sobre la conexión y de lo que espera en este dispositivo.
import type { outbox as Shape } from "../en/outbox";
import { plural } from "./plural";

export const outbox: typeof Shape = {
  label: "Conexión",
  lost: "Redd no responde.",
  lostHow: "Siga anotando: todo se guarda en este dispositivo y se envía solo cuando vuelva a responder.",
  asOf: (when) => `Lo que ve era así el ${when}.`,
  waiting: (count) =>
    `${plural(count, "entrada guardada", "entradas guardadas")} en este dispositivo y todavía no en el archivo de la temporada.`,
  elsewhereTitle: (kind) => `De otra temporada: ${kind}`,
  elsewhereHow: (season) =>
    `Se anotó para «${season}». Se envía cuando esa temporada esté abierta en esta dirección; si eso no va a pasar, descarte la entrada.`,
  tryNow: "Intentar ahora",
  refusedTitle: (kind) => `No se aceptó: ${kind}`,
  refusedHow: "No se pierde nada: anótelo otra vez como debe ser y después descarte esta entrada.",
  again: "Enviar otra vez",
  discard: "Descartar",
  sure: "¿Descartar esta entrada para siempre?",
  sureYes: "Sí, descartarla",
  sureNo: "Conservarla",
  discarded: "Descartada.",
  keptTitle: "Guardado en este dispositivo.",
  keptHow:
    "Redd no responde en este momento. La entrada pasa sola al archivo de la temporada cuando responda; entonces la respuesta de hoy la tiene en cuenta.",
  arrivedTitle: "Ya está en el archivo de la temporada.",
  arrivedHow:
    "La entrada se envió sola y ya está en el archivo de la temporada. Se puede corregir o deshacer en el historial.",
  takeBack: "Retirarla",
  takenBack: "Retirada: no se envió.",
};
