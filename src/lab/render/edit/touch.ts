/** What the grid needs where the pointer is a finger: one tap opens an entry, and a row is high enough for one. */
export const forTouch = () =>
  matchMedia('(pointer: coarse)').matches
    ? { singleClickEdit: true, rowHeight: 44, headerHeight: 40 }
    : {};
