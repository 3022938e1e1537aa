/** Made at the first need and kept. For what a page that is just coming up should not spend its time on, such as the schema of a large file. */
export function once<Value>(make: () => Value): () => Value {
  let made: { readonly value: Value } | null = null;
  return () => (made ??= { value: make() }).value;
}
