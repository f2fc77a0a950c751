// Lo que la temporada enseña a la siguiente.
import type { nextYear as Shape } from "../en/next_year";

export const nextYear: typeof Shape = {
  title: "Qué puede mejorar el próximo año",
  loading: "Repasando la temporada …",
};
