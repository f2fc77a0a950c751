// Lo que dice la página sobre conservar la temporada: el archivo que se guarda, el almacenamiento del navegador, otras
// computadoras.
import type { copies as Shape } from "../en/copies";
import { plural } from "./plural";

const entries = (count: number) => plural(count, "entrada", "entradas");

export const copies: typeof Shape = {
  title: "La temporada en un archivo",
  intro:
    "Un archivo contiene toda la temporada, con sus correcciones. Cualquier Redd lo abre: esta página, la edición en un archivo o el programa en una computadora de la escuela. Nada se pierde al ir ni al volver.",
  footer: "La temporada en un archivo",
  saveTitle: "Guardarla",
  save: "Guardar la temporada en un archivo",
  saveShort: "Guardar",
  handed: (name) =>
    `«${name}» se entregó a su navegador. Búsquelo donde van las descargas y guárdelo donde se hagan copias de seguridad.`,
  saveHelp:
    "Una vez por semana, después de la prueba semanal, es una buena costumbre. Conserve los dos o tres últimos.",
  guessesHelp:
    "No se deja nada fuera, tampoco las predicciones que aún están ocultas para la clase: no pase el archivo mientras haya una pregunta abierta.",
  lastSaved: (day, name) => `Guardada por última vez el ${day} como «${name}».`,
  neverSaved: "Todavía no se guardó en un archivo.",
  openTitle: "Abrir una temporada guardada",
  open: "Elegir una temporada guardada",
  openHelp:
    "Un archivo que guardó Redd; su nombre termina en .json. Si esta temporada siguió en otro lugar, solo se agrega lo nuevo. Otra temporada se rechaza: nunca se mezcla nada.",
  added: (count) =>
    count === 0
      ? "Todo estaba ya aquí: no se agregó nada."
      : `${plural(count, "entrada agregada", "entradas agregadas")}.`,
  tooLarge: "Este archivo es demasiado grande para ser una temporada guardada.",
  line: {
    label: "Qué está guardado",
    none: "Todavía no hay entradas.",
    allSaved: (name) => `Todas las entradas están en «${name}».`,
    unsaved: (count) => `${entries(count)} todavía sin archivo.`,
    nagCount: "Guarde ahora: un archivo es la única copia que sobrevive a este navegador.",
    nagDays: (days) => `El último archivo tiene ${plural(days, "día", "días")}. Guarde uno nuevo.`,
    demo: "Temporada inventada: nada de ella se conserva al cerrar la página.",
    memory: "Este navegador no conserva nada: las entradas desaparecen al cerrar la página. Guárdelas en un archivo.",
    more: "Cómo se conservan las entradas",
  },
  storage: {
    title: "Qué conserva este navegador",
    plain:
      "Las entradas se conservan en este navegador de esta computadora y en ningún otro lugar. El navegador puede borrarlas: cuando usted o la escuela borran sus datos, al final de una ventana privada o una sesión de invitado, cuando se llena el disco, en algunos navegadores tras una semana sin visita, y en algunos cuando este archivo se mueve o cambia de nombre. El archivo guardado es su copia.",
    promised: "Este navegador prometió no borrarlas por su cuenta. Borrar sus datos a mano las borra de todos modos.",
    notPromised: "Este navegador no prometió conservarlas. Confíe en el archivo guardado.",
    unasked: "Puede pedir a este navegador que prometa no borrarlas por su cuenta.",
    ask: "Pedir esa promesa",
    none: "Este navegador prohíbe el almacenamiento: las entradas duran solo hasta que cierre la página.",
    shared:
      "Quien use este navegador con la misma cuenta puede ver y cambiar la temporada. Otras páginas abiertas desde el disco quizá también puedan leerla.",
  },
  made: {
    title: "Copias que se hacen solas",
    how: "La primera entrada de cada día hace una copia en este equipo, junto a la temporada. Cada una se lee entera ahora mismo para ver si está completa.",
    newest: (when) => `La última copia completa es del ${when}.`,
    none: "Todavía no hay ninguna copia en la que se pueda confiar. La primera entrada de cada día hace una.",
    bad: (count, numbers) =>
      count === 1
        ? `La copia ${numbers} no está completa o no se puede leer: confíe en otra y haga revisar el disco.`
        : `Las copias ${numbers} no están completas o no se pueden leer: confíe en otras y haga revisar el disco.`,
    all: (count) => (count === 1 ? "La única copia" : `Las ${count} copias`),
    fewer: "Ocultar la lista",
    table: "Lista de copias",
    number: "Copia",
    when: "Hecha",
    why: "Por qué",
    records: "Registros",
    state: "Leída ahora",
    make: "Hacer una copia ahora",
    working: "Leyendo las copias…",
    done: "Se hizo una copia más; se leyó de nuevo y está completa.",
    elsewhere:
      "Están en el mismo disco que la temporada. Guarde también la temporada en un archivo, en otro disco. Para reponer una copia, vea la guía: «redd restore».",
  },
  anew: {
    title: "Empezar aquí otra temporada",
    how: "Este navegador guarda una temporada a la vez. Guarde primero esta en un archivo; después se puede apartar y empezar o abrir otra.",
    button: "Quitar esta temporada del navegador",
    sure: (count) =>
      count === 0
        ? "El archivo que guardó la conserva. ¿Quitarla de este navegador?"
        : `Sin archivo todavía: ${entries(count)}. Se perdería. ¿Quitar la temporada de todos modos?`,
    yes: "Quitarla",
    no: "Conservarla",
  },
  noCalendar:
    "En esta edición no se puede leer un archivo de calendario. Registre cada cierre una vez, con su primer y último día; el plan los evita igualmente.",
  leaveDemo: "Salir de la temporada inventada",
  notKept:
    "Esta entrada no se pudo conservar: el almacenamiento del navegador está lleno o se cerró. Sigue en el formulario. Guarde la temporada en un archivo, haga espacio e inténtelo otra vez.",
  edition: {
    title: "Redd en un archivo",
    how: "Para una computadora en la que no se puede instalar nada: un archivo que se abre en un navegador, desde el disco o cualquier espacio web, sin servidor. Lleva toda la página y sus cálculos. Abra en él su temporada guardada y traiga después el archivo de vuelta aquí.",
    get: "Descargar redd.html",
  },
  start: {
    title: "Redd, sin instalar nada",
    intro:
      "Este archivo es el programa entero. No envía nada a ningún lado y no necesita red. Lo que registra queda en este navegador y en el archivo que guarda.",
    open: "Abrir una temporada guardada",
    openHow: "Tiene un archivo de esta página o del programa Redd.",
    fresh: "Empezar una temporada nueva",
    freshHow: "Unas preguntas, unos cinco minutos. «No sé» es una respuesta.",
    demo: "Mirar una temporada inventada",
    demoHow: "Inventada para probar cosas. Nada de ella se conserva.",
    look: "Mirar",
    lost: "¿Tenía aquí una temporada y ya no está? El navegador borró su almacenamiento. Abra el último archivo que guardó; lo registrado desde entonces hay que registrarlo otra vez.",
  },
};
