/** True for `./x`, `../x`, absolute paths (also `C:\x`) and file URLs. */
export function isLocalPath(specifier: string): boolean {
  return /^(\.{1,2}([\\/]|$)|[\\/]|[A-Za-z]:[\\/]|file:)/.test(specifier);
}
