const VIEW_ID = /"viewId": "[0-9a-f-]{36}"/g;

/**
 * Whether two notebook texts differ in nothing but the identities of their views. Each run gives views new ones;
 * they tell views of one page apart and mean nothing between runs.
 */
export function sameButViewIds(one: string, other: string): boolean {
  return one.replace(VIEW_ID, '"viewId"') === other.replace(VIEW_ID, '"viewId"');
}
