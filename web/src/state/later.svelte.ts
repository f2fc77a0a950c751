// The screens that come after the first paint.

/** Screens of one file, fetched when they are wanted. */
class Coming<Views> {
  views: Views | null = $state.raw(null);
  /** They could not be fetched: the server does not answer, or holds another version of the page. */
  failed = $state(false);
  private coming: Promise<void> | null = null;

  constructor(private readonly from: () => Promise<Views>) {}

  /** Fetches them once; a fetch that failed is tried again. */
  fetch(): Promise<void> {
    this.coming ??= this.from().then(
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

/** When the page is idle, or when one of them is asked for. */
export const later = new Coming(() => import("../views/later"));
/** Only when one of them is asked for. */
export const seldom = new Coming(() => import("../views/seldom"));
