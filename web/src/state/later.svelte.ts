// The screens that come after the first paint.
type Views = typeof import("../views/later");

class Later {
  views: Views | null = $state.raw(null);
  /** They could not be fetched: the server does not answer, or holds another version of the page. */
  failed = $state(false);
  private coming: Promise<void> | null = null;

  /** Fetches them once; a fetch that failed is tried again. */
  fetch(): Promise<void> {
    this.coming ??= import("../views/later").then(
      (views) => {
        this.views = views;
        this.failed = false;
      },
      () => {
        this.coming = null;
        this.failed = true;
      },
    );
    return this.coming;
  }
}

export const later = new Later();
