// Preguntas de un organismo que el informe de la temporada no responde por sí mismo.
import type { ownQuestions as Shape } from "../en/own_questions";

export const ownQuestions: typeof Shape = {
  title: "Otras preguntas",
  how: "Lo que su organismo o criadero pregunta además de este informe. Preguntas y respuestas quedan en este navegador y se imprimen con el informe. Sin nombres de menores.",
  add: "Agregar una pregunta",
  question: (place) => `Pregunta ${place}`,
  answer: (place) => `Respuesta ${place}`,
  remove: (place) => `Quitar la pregunta ${place}`,
};
