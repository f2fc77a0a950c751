// One state of a component, for the gallery and for the tests: beside ordinary ones always the worst cases.
import type { Component } from "svelte";

export interface Example {
  name: string;
  component: Component<Record<string, unknown>>;
  props: Record<string, unknown>;
  /** Words that must be found in what is shown. */
  shows?: string[];
}

/** Checks the props against the component, then lets examples of many components stand in one list. */
export function example<Props extends Record<string, unknown>>(
  component: Component<Props>,
  name: string,
  props: Props,
  shows: string[] = [],
): Example {
  return { name, component: component as unknown as Component<Record<string, unknown>>, props, shows };
}
