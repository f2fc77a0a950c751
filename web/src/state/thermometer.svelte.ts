// The live thermometer as this page knows it: asked now and then, and its alarms rung and shown by this browser where somebody wants it.
import { getThermometer, quietThermometer } from "../api";
import { ring, wake } from "../bench/sound";
import type { Thermometer } from "../contract_thermometer";
import { keep, kept } from "../keep";
import { t } from "../messages";
import { announce } from "./app.svelte";

const asked_every_ms = 20_000;
/** Where none is set up, a new one begins with a new start of the server: the page is loaded anew then, or looks now and then. */
const asked_seldom_ms = 600_000;
/** How often this device rings while nobody has said that they know. */
const rings_every_ms = 60_000;

class ThermometerState {
  now: Thermometer | null = $state.raw(null);
  /** The newest question was not answered: what stands in `now` is old. */
  lost = $state(false);
  /** The clock of this device when it was asked last. */
  asked_ms = $state(0);
  sound = $state(kept<boolean>("alarm_sound") ?? false);
  private told = new Set<string>();
  private rang_ms = 0;

  setSound(on: boolean): void {
    this.sound = on;
    keep("alarm_sound", on);
    if (on) wake();
  }

  take(now: Thermometer): void {
    this.now = now;
    this.lost = false;
    this.asked_ms = Date.now();
    const loud = now.alarms.filter(({ quiet }) => !quiet);
    const fresh = loud.filter(({ alarm, since }) => !this.told.has(`${alarm} ${since.slice(0, 15)}`));
    for (const one of fresh) {
      announce(one.sentence);
      this.notify(one.sentence);
    }
    this.told = new Set(loud.map(({ alarm, since }) => `${alarm} ${since.slice(0, 15)}`));
    if (loud.length > 0 && this.sound && (fresh.length > 0 || Date.now() - this.rang_ms >= rings_every_ms)) {
      this.rang_ms = Date.now();
      ring(false);
    }
  }

  private notify(sentence: string): void {
    try {
      if (typeof Notification !== "undefined" && Notification.permission === "granted")
        new Notification(t.thermometer.title, { body: sentence, tag: "redd-thermometer" });
    } catch {
      // Some browsers show notifications from installed pages only: banner and sound remain.
    }
  }

  async look(): Promise<void> {
    const outcome = await getThermometer();
    if (outcome.ok) this.take(outcome.value.thermometer);
    else this.lost = true;
  }

  async quiet(): Promise<void> {
    const outcome = await quietThermometer();
    if (outcome.ok) this.take(outcome.value.thermometer);
    else this.lost = true;
  }

  /** Asks again and again; the answer stops it. */
  follow(): () => void {
    let timer: ReturnType<typeof setTimeout>;
    let over = false;
    const again = async () => {
      await this.look();
      if (!over) timer = setTimeout(again, this.now?.set_up ? asked_every_ms : asked_seldom_ms);
    };
    void again();
    return () => {
      over = true;
      clearTimeout(timer);
    };
  }
}

export const thermometer = new ThermometerState();
