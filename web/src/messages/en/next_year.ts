// What the season teaches the next one.
export const nextYear = {
  title: "What next year may do better",
  loading: "Looking back over the season …",
};
