// Lo que dice la página cuando el núcleo que lleva dentro no puede responder.
import type { engine as Shape } from "../en/engine";

export const engine: typeof Shape = {
  unusable:
    "Este navegador no puede hacer los cálculos de Redd dentro de la página. Todo lo demás funciona. Un Firefox, Chrome, Edge o Safari actual puede; algunas configuraciones escolares lo prohíben.",
  stopped: "Un cálculo dentro de la página se detuvo. No se tocó nada de su temporada. Inténtelo otra vez.",
  slow: "Un cálculo dentro de la página tardó más de un minuto y se terminó. No se tocó nada de su temporada. Inténtelo otra vez.",
};
