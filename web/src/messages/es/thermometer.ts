import type { thermometer as english } from "../en/thermometer";

const ways: Record<string, string> = { desktop: "Escritorio", mail: "Correo", webhook: "Dirección web" };

export const thermometer: typeof english = {
  title: "Termómetro en vivo",
  label: "Termómetro",
  now: (temperature, age) => `El sensor marca ${temperature}, ${age}.`,
  justNow: "ahora mismo",
  minutesAgo: (count) => (count === 1 ? "hace 1 minuto" : `hace ${count} minutos`),
  hoursAgo: (count) => (count === 1 ? "hace 1 hora" : `hace ${count} horas`),
  noWord: "Todavía no ha llegado nada del sensor.",
  lost: "El servidor no responde: aquí no se sabe ahora qué marca el termómetro.",
  more: "El termómetro",
  know: "Ya lo sé",
  known: "Alguien ya lo sabe. Se muestra hasta que termine.",
  soundOn: "Sonar en este dispositivo",
  soundHelp: "Mientras esta página esté abierta. Suba el volumen y pruébelo.",
  trySound: "Escucharlo",
  notify: "Notificaciones de este navegador",
  notifyAsk: "Permitir notificaciones",
  notifyOn: "Permitidas: una alarma se muestra también fuera de esta página, mientras esté abierta.",
  notifyOff: "Este navegador no permite notificaciones aquí. Puede cambiarlo en sus ajustes para esta página.",
  notifyNone: "Este navegador no tiene notificaciones.",
  limits: (low, high) => `Avisa por debajo de ${low} y por encima de ${high}.`,
  fromSeason: "Estos límites vienen de la temporada y de la etapa en el tanque; el archivo de ajustes puede dar otros.",
  notWorking: "No todo está bien con él",
  tellTitle: "A quién se avisa",
  test: "Enviar una alarma de prueba",
  sentWell: (way) => `${way}: enviada. Vea si ha llegado.`,
  notSent: (way, why) => `${way}: no enviada. ${why}.`,
  noWays:
    "Aparte de esta página no se avisa a nadie. El archivo de ajustes puede nombrar un correo, una dirección web o el escritorio.",
  way: (way) => ways[way] ?? way,
  none: "No hay ningún termómetro configurado.",
  how: "Un sensor en el tanque, leído todo el tiempo: un sensor de un hilo u otro que la máquina muestre como archivo, o un tema de un servidor MQTT. Redd anota un valor por hora, dice cuándo el sensor calla o se queda fijo, y avisa cuando el agua sale de sus límites.",
  steps: [
    "En la máquina donde corre Redd: redd thermometer --find muestra los sensores.",
    "redd thermometer --settings imprime un archivo de ajustes para empezar. Guárdelo como thermometer.conf junto a la temporada, legible solo para su dueño, y escriba en él el sensor.",
    "redd thermometer lo lee una vez. Después inicie Redd de nuevo.",
  ],
  limitsOfIt:
    "Es una ayuda, no un guardián: necesita la máquina, su corriente y su red. Mire el tanque y mida a mano como antes.",
};
