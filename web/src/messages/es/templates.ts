// Los kits de partida en español, por su texto en inglés tal como llega del servidor. Lo que falte aquí queda como llega.
export const templateWords: Record<string, string> = {
  "Dip strips (generic: replace by your own card)":
    "Tiras reactivas (genéricas: ponga los valores de su propia tarjeta)",
  "Drop and card kit (generic: replace by your own card)":
    "Kit de gotas y tarjeta (genérico: ponga los valores de su propia tarjeta)",
  "Meters (generic: replace the accuracies by your own)": "Medidores (genéricos: ponga las precisiones de los suyos)",
  "Bottle 1.": "Frasco 1.",
  "Bottle 1. Wear eye protection: these reagents burn.":
    "Frasco 1. Use protección para los ojos: estos reactivos queman.",
  "Bottle 2.": "Frasco 2.",
  "Bottle 2, shaken hard beforehand: what settles in it is the reagent.":
    "Frasco 2, bien agitado antes: lo que se asienta en él es el reactivo.",
  "Bottle 2. Wear eye protection: these reagents burn.":
    "Frasco 2. Use protección para los ojos: estos reactivos queman.",
  "Bottle 3, one drop at a time, counting, until the colour is gone.":
    "Frasco 3, una gota por vez y contando, hasta que desaparezca el color.",
  "Close the vial with its cap and turn it over.": "Cierre el tubo con su tapa y voltéelo.",
  "Close the vial with its cap, not a finger, and turn it over.":
    "Cierre el tubo con su tapa, no con un dedo, y voltéelo.",
  "Close without a bubble and turn over.": "Cierre sin burbujas y voltee.",
  "Compare on white, in daylight.": "Compare sobre blanco, a la luz del día.",
  "Compare on white, in daylight. Zero on this pad does not prove that the water is free of chlorine.":
    "Compare sobre blanco, a la luz del día. Un cero en esta almohadilla no prueba que el agua esté libre de cloro.",
  "Dip the strip for one second, shake off the drop, hold it level.":
    "Sumerja la tira un segundo, sacuda la gota y manténgala horizontal.",
  "Fill the bottle under water so that no bubble stays in it.":
    "Llene el frasco bajo el agua para que no quede ninguna burbuja.",
  "Hold it level.": "Manténgala horizontal.",
  "Hold the bottle upright over the vial.": "Sostenga el frasco vertical sobre el tubo.",
  "Keep the water moving past the tip until the number rests.":
    "Mantenga el agua en movimiento junto a la punta hasta que el número quede quieto.",
  "Let it settle.": "Deje que se asiente.",
  "Let the colour grow.": "Deje que se forme el color.",
  "Let the colour grow; cold water needs the full time.":
    "Deje que se forme el color; el agua fría necesita todo el tiempo.",
  "One drop at a time, counting, until the colour turns and stays.":
    "Una gota por vez y contando, hasta que el color cambie y se mantenga.",
  "One level spoon of the powder.": "Una cucharada rasa del polvo.",
  "Rinse the tip with tank water.": "Enjuague la punta con agua del acuario.",
  "Rinse the vial with tank water, fill it to the line.":
    "Enjuague el tubo con agua del acuario y llénelo hasta la línea.",
  "Shake for the whole minute, or it reads too low.": "Agite el minuto completo, o la lectura saldrá demasiado baja.",
  "Stir gently until the number rests.": "Revuelva con suavidad hasta que el número quede quieto.",
  "Swirl after every drop.": "Gire el tubo después de cada gota.",
  "The drop that took the colour away counts.": "La gota que quitó el color cuenta.",
  "The drop that turned the colour counts.": "La gota que cambió el color cuenta.",
  "The same strip, read together with nitrate.": "La misma tira, leída junto con el nitrato.",
  "Write the number down as it stands, in mg/L.": "Anote el número tal como está, en mg/L.",
  "Write the number down as it stands, then put the cap with its storing liquid back.":
    "Anote el número tal como está y vuelva a poner la tapa con su líquido de conservación.",
};
