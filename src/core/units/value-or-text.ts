/**
 * A quantity given as itself or as what a navigator writes: how fields that take both are read.
 * @param kind the class of the quantity
 * @param read what reads its text; whatever is neither text nor the quantity is refused by it with the right form
 */
export function valueOrText<T extends object, S extends string>(
  kind: { readonly prototype: T },
  given: T | S,
  read: (text: S) => T,
): T {
  return given instanceof (kind as unknown as new () => T) ? given : read(given as S);
}
