// One state of a component, for the gallery and for the tests: beside ordinary ones always the worst cases.
import type { Component } from "svelte";

export interface Example {
  name: string;
  // Examples of many components stand in one list; each file checks its own props.
  component: Component<never> | Component<Record<string, never>> | unknown;
  props: Record<string, unknown>;
}
