// Palabras de la configuración: cada pregunta con lo que cambia su respuesta, lo que se toma mientras nadie lo sabe y por
// qué vale la pena averiguarlo.
import type { firstRun as Shape } from "../en/first_run";

type Asked = ReturnType<typeof Shape.question>;

const questions: Record<string, Asked> = {
  language: {
    label: "Idioma",
    changes:
      "Las palabras de cada pantalla y cada hoja impresa. La página se carga de nuevo enseguida; también se puede cambiar después.",
  },
  units: {
    label: "Unidades",
    changes: "Cómo se escriben y se muestran los números. El registro mismo guarda °C y litros.",
  },
  place: {
    label: "Escuela o lugar",
    changes: "Encabeza cada página y cada hoja. Un lugar, nunca el nombre de una persona.",
    taken: "«Nuestra escuela».",
  },
  name: { label: "Nombre de esta temporada", changes: "Distingue una temporada de la siguiente." },
  time_zone: {
    label: "Zona horaria",
    changes: "Decide cuándo empieza un día escolar.",
    taken: "La zona de este dispositivo.",
  },
  elevation: {
    label: "Altura sobre el nivel del mar",
    changes: "El aire delgado tiene menos oxígeno, así que caben menos peces.",
    taken: "500 m (1600 ft). En un lugar más bajo ese es el lado prudente; en uno más alto, no.",
    why: "Cuanto más alta la escuela, menos oxígeno tiene el agua y menos peces sostiene el acuario.",
  },
  volume: {
    label: "Agua en el acuario",
    changes: "De ella depende cada dosis y cada cambio de agua.",
    taken:
      "200 L (53 galones). O mida las tres longitudes de abajo: entonces se calcula, menos una décima parte por grava y equipos.",
    why: "De ella depende cada dosis y cada cambio de agua: un acuario de la mitad recibe el doble de la dosis.",
  },
  length_cm: { label: "Largo interior", changes: "Con el ancho y la altura da el volumen." },
  width_cm: { label: "Ancho interior", changes: "Con el largo y la altura da el volumen." },
  water_height_cm: {
    label: "Altura del agua",
    changes: "Del fondo del acuario a la superficie.",
  },
  first_day: {
    label: "Día en que se llenó o se llenará el acuario",
    changes: "La temporada empieza ese día. Antes no se puede registrar nada en el acuario.",
    taken: "Hoy.",
  },
  wall: {
    label: "Paredes",
    changes: "Qué tan rápido se calienta el acuario cuando se detiene el enfriador.",
    taken: "Vidrio.",
  },
  lid: {
    label: "Tapa",
    changes: "Cuánto calor entra por arriba y cuánta agua se evapora.",
    taken: "Una lámina simple.",
  },
  pump_w: {
    label: "Filtro y bombas: potencia eléctrica (W), según la placa",
    changes: "Lo que funciona día y noche acaba como calor que el enfriador debe sacar.",
    taken: "Una bomba usual para este volumen.",
  },
  air_l_per_min: {
    label: "Bomba de aire: litros de aire por minuto, según la placa",
    changes: "Cuántos peces reciben suficiente oxígeno.",
    taken: "La piedra difusora pequeña menos eficaz.",
    why: "Hasta entonces se calcula con la piedra difusora menos eficaz, y el acuario parece sostener menos peces de los que puede.",
  },
  chiller_cooling_w: {
    label: "Enfriador: calor que saca del agua",
    changes:
      "Si mantiene la temperatura de los huevos en una sala cálida. En su placa, como capacidad de enfriamiento, no como potencia eléctrica.",
    taken: "Que mantiene de 4 a 26 °C (39 a 79 °F), sea cual sea la sala. Nadie lo ha comprobado.",
    why: "Sin ello nadie puede decir si el acuario sigue frío cuando la sala se calienta.",
  },
  target_c: {
    label: "Temperatura para los huevos",
    changes: "Las fechas de eclosión y nado libre. La dice su criadero o su permiso.",
    taken: "8 °C (46 °F), dentro del intervalo cómodo para huevos de todas las especies de aquí.",
    why: "Un grado mueve la eclosión varios días. La dice su criadero o su permiso.",
  },
  room_day_c: {
    label: "La sala en los meses más fríos, en uso",
    changes: "Cuánto trabaja el enfriador y cuánto tiempo sigue frío el acuario sin él.",
    taken: "20 °C (68 °F).",
  },
  room_summer_day_c: {
    label: "La sala en los meses más cálidos, en uso",
    changes: "Si el enfriador es bastante fuerte al final de la primavera.",
    taken: "Unos grados más que en los meses más fríos.",
    why: "Al final de la primavera es cuando un enfriador deja de alcanzar.",
  },
  disinfectant: {
    label: "Qué mantiene limpia el agua de la red",
    changes: "El cloro y la cloramina matan peces y filtro. El informe anual de su proveedor de agua lo dice.",
    taken: "Puede tener cloro o cloramina: neutralice el agua nueva y pruébela antes de echarla.",
    why: "El cloro y la cloramina matan huevos, peces y filtro, y la cloramina deja amoníaco.",
  },
  chlorine_mg_per_l: {
    label: "Cuánto, como cloro total (mg/L)",
    changes: "Cuánto neutralizante necesita un cambio de agua.",
    taken: "No se sabe: pruebe el agua nueva.",
    why: "De ello depende el neutralizante de cada cambio de agua.",
  },
  ph: {
    label: "pH del agua de la red",
    changes: "Qué tan tóxico es el amoníaco después de un cambio de agua.",
    taken: "No se sabe, así que las predicciones de cambios de agua lo omiten.",
    why: "Decide qué tan tóxico se vuelve el amoníaco después de un cambio de agua.",
  },
  alkalinity: {
    label: "Alcalinidad (dureza de carbonatos) del agua de la red",
    changes: "Qué tan estable es el pH mientras el filtro madura y trabaja.",
    taken: "No se sabe, así que las predicciones de cambios de agua la omiten.",
    why: "En agua blanda el pH puede caer de golpe mientras trabaja el filtro.",
  },
  species: {
    label: "Especie",
    changes: "Las fechas y la banda de temperatura. La dice su proveedor o su permiso.",
    taken: "Trucha arcoíris. Sus fechas pueden diferir semanas de las de otra especie.",
    why: "Cada especie tiene fechas y temperaturas propias: hay semanas entre ellas.",
  },
  here: {
    label: "¿Ya están los huevos en el acuario?",
    changes: "Si el plan parte de una llegada o de una fecha por venir.",
    taken: "No.",
  },
  egg_day: {
    label: "Día en que llegan o llegaron los huevos",
    changes: "Todas las fechas del plan parten de él.",
    taken:
      "Diez semanas después de llenar el acuario: ocho para que madure el filtro y dos para enfriar. Si ya están: hoy.",
    why: "Todas las fechas del plan parten de él. Ahora se apoya en una suposición.",
  },
  egg_count: {
    label: "Cuántos huevos",
    changes: "Cuánto amoníaco, alimento y oxígeno hay que prever.",
    taken: "100 para huevos que ya están; para huevos por venir se cuenta con 200 hasta que usted dé un número.",
    why: "Amoníaco, alimento y oxígeno dependen del número.",
  },
  age: {
    label: "Qué dice el proveedor de su edad",
    changes: "Qué tan precisas son las fechas.",
    taken: "Solo que tienen ojos: las fechas quedan amplias.",
    why: "Reduce las fechas de semanas a días. Pida al criadero las unidades térmicas o el día de la fecundación.",
  },
  thermal_sum: {
    label: "Unidades térmicas hasta ahora",
    changes: "Grados sobre el punto de congelación, sumados día por día desde la fecundación.",
    taken: "Solo que tienen ojos.",
    why: "Reduce las fechas de semanas a días.",
  },
  fertilised_on: {
    label: "Día de la fecundación",
    changes: "Las fechas se cuentan desde él.",
    taken: "Solo que tienen ojos.",
  },
  origin: {
    label: "De dónde vienen los huevos",
    changes: "Los huevos silvestres eclosionan a lo largo de semanas; los de cultivo, en días.",
    taken: "Silvestres, lo más amplio.",
  },
  kit: {
    label: "Su kit de pruebas",
    changes:
      "Las lecturas se registran en los tonos de su propia tarjeta. Elija el más parecido; en un momento lo ajusta a su tarjeta.",
    taken: "Ningún kit: las pruebas de agua se pueden registrar cuando haya descrito uno.",
    why: "Sin kit no se puede registrar ninguna prueba de agua, y el agua sin probar nunca se da por buena.",
  },
  weekdays: {
    label: "Días con clases",
    changes: "La eclosión y la primera alimentación se planifican en días en que hay alguien.",
    taken: "De lunes a viernes.",
  },
  breaks: {
    label: "Vacaciones y días cerrados",
    changes: "El plan aleja la primera alimentación de las vacaciones y dice quién debe cuidar los peces.",
    taken: "Sin vacaciones: todos los días de semana cuentan como abiertos.",
    why: "Una primera alimentación en vacaciones que nadie previó deja a los alevines sin comer. Un archivo de calendario se puede leer después.",
  },
  release_from: {
    label: "Permiso: primer día para una liberación",
    changes: "El plan busca alevines que puedan salir entonces.",
    taken: "Sin ventana: la liberación no es parte del plan.",
    why: "Si los alevines están listos fuera de la ventana, quizá no puedan salir.",
  },
  release_until: {
    label: "Permiso: último día para una liberación",
    changes: "Los alevines deben estar listos para entonces.",
    taken: "Sin ventana.",
  },
  permit: {
    label: "El permiso en breve",
    changes: "Se muestra donde se habla de liberación. Decide el permiso mismo.",
  },
};

const choices: Record<string, Record<string, string>> = {
  language: { en: "English", es: "Español" },
  units: { metric: "°C y litros", us: "°F y galones de EE. UU." },
  elevation: {
    "300": "Menos de 300 m (1000 ft)",
    "1000": "De 300 a 1000 m (de 1000 a 3300 ft)",
    "2000": "De 1000 a 2000 m (de 3300 a 6600 ft)",
    "3000": "Más",
  },
  wall: { glass: "Vidrio", acrylic: "Acrílico", foam: "Una caja aislada" },
  lid: { none: "Ninguna", sheet: "Una lámina simple", foam: "Aislada" },
  disinfectant: {
    chlorine: "Cloro",
    chloramine: "Cloramina",
    none: "Nada (un pozo, o así lo dice el proveedor)",
  },
  here: { yes: "Sí", no: "No, están por llegar" },
  age: { thermal_sum: "Unidades térmicas", fertilised_on: "El día de la fecundación", eyed: "Solo «con ojos»" },
  origin: { farmed: "Reproductores de un criadero", wild: "Padres silvestres" },
  kit: { blank: "Ninguno de estos: describo el mío" },
  weekdays: { mon: "Lun", tue: "Mar", wed: "Mié", thu: "Jue", fri: "Vie", sat: "Sáb", sun: "Dom" },
};

export const firstRun: typeof Shape = {
  intro:
    "Unos cinco minutos. Nada aquí es definitivo: cada respuesta se puede corregir después, y lo que no sepa puede quedar abierto.",
  steps: {
    units: "Idioma y unidades",
    school: "Su escuela",
    tank: "El acuario",
    around: "Alrededor del agua",
    cold: "Frío",
    water: "Agua de la red",
    eggs: "Los huevos",
    kit: "Su kit de pruebas",
    calendar: "El calendario escolar",
    permit: "El permiso",
    check: "¿Es correcto?",
    card: "Ajustar su tarjeta",
    plan: "Su plan",
  },
  progress: (step, of) => `Paso ${step} de ${of}`,
  question: (key) => questions[key] ?? { label: key, changes: "" },
  choice: (key, value) => choices[key]?.[value],
  unsure: "No sé",
  unsureAbout: (label) => `No sé: ${label}`,
  taken: (what) => `Mientras no lo sepa: ${what}`,
  unitOf: (label) => `Unidad de «${label}»`,
  eggDayTaken: (day) =>
    `${day}. Diez semanas después de llenar el acuario: ocho para que madure el filtro, dos para enfriar.`,
  units: {
    alkalinity: ["grados alemanes (KH)", "mg/L como CaCO₃"],
    thermal: ["°C·días", "unidades °F"],
  },
  next: "Siguiente",
  back: "Atrás",
  kitLike: (name) => `Así: ${name}`,
  askSupplier:
    "Pregunte ya al proveedor la edad de los huevos a la llegada: unidades térmicas, o el día de la fecundación. Se registra cuando lleguen.",
  break: {
    name: "Nombre",
    named: (index) => `Nombre de las vacaciones ${index}`,
    from: "Primer día cerrado",
    fromOf: (index) => `Primer día cerrado de las vacaciones ${index}`,
    to: "Último día cerrado",
    toOf: (index) => `Último día cerrado de las vacaciones ${index}`,
    add: "Agregar vacaciones",
    remove: (name) => `Quitar ${name}`,
    unnamed: (index) => `vacaciones ${index}`,
    fallback: "Escuela cerrada",
    file: "Un archivo de calendario (.ics) de la escuela se puede leer cuando haya empezado la temporada.",
  },
  check: {
    intro: "Corrija lo que quiera, ahora o después. Al empezar se hace el plan.",
    answered: "Sus respuestas",
    open: "Todavía sin saber",
    openNone: "No queda nada abierto.",
    change: (label) => `Cambiar: ${label}`,
    changeShort: "Cambiar",
    begin: "Empezar la temporada",
    saving: "Guardando …",
    again:
      "Una parte ya está guardada. Pulse otra vez el botón: solo se agrega lo que falta, nada se guarda dos veces.",
  },
  problems: {
    notFuture: (label) => `${label}: este día ya pasó. Si los huevos ya están, dígalo; si no, dé el día en que llegan.`,
    notPast: (label) => `${label}: este día todavía no ha llegado.`,
    beforeFilling: (label) => `${label}: ese día el acuario todavía no se había llenado.`,
    crossed: "El último día del permiso es anterior al primero.",
    breakDays: (name) => `${name}: dé su primer día; el último no puede ser anterior.`,
    noDay: (label) => `${label}: ese día no existe en el calendario.`,
    positive: (label) => `${label}: un número mayor que 0, por favor.`,
    outside: (label, low, high) => `${label}: entre ${low} y ${high}, por favor. ¿Es correcta la unidad?`,
  },
  card: {
    intro:
      "Cambie los tonos de abajo por los impresos en su propia tarjeta. Una lectura solo se puede registrar en los tonos que estén ahí.",
    later: "Hacerlo después",
  },
  plan: {
    made: "La temporada ha empezado. Este es el plan hasta donde se puede saber hoy.",
    working: "Haciendo el plan …",
    noPlan: "Todavía no hay plan",
    next: "El siguiente paso",
    dates: "Fechas clave",
    eggs: "Llegan los huevos",
    release: "Liberación, según el permiso",
    likely: (from, to, mid) => `del ${from} al ${to}, lo más probable el ${mid}`,
    open: "Vale la pena averiguar",
    openHelp:
      "Lo más importante primero: lo que puede dañar a los animales, después lo que mueve fechas, después lo que solo afina números. El orden es nuestro criterio, no un cálculo.",
    openNone: "Usted sabía todo. El registro dirá el resto.",
    today: "A la página de hoy",
    season: "Ver todo el plan",
    print: "Imprimir hojas para la pared",
    calendar: "Leer el calendario escolar",
  },
  ourSchool: "Nuestra escuela",
  tap: "Agua de la red",
  note: (list) => `Sin saber al configurar, se tomaron valores usuales: ${list}.`,
};
