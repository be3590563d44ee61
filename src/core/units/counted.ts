/** `1 row`, `2 rows`. @param noun one whose plural takes an s */
export const counted = (n: number, noun: string): string => `${n} ${noun}${n === 1 ? '' : 's'}`;
