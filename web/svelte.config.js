// Short class names for scoped styles: they stand thousands of times in what is sent.
export default {
  compilerOptions: { runes: true, cssHash: ({ hash, css }) => `s${hash(css).slice(0, 5)}` },
};
