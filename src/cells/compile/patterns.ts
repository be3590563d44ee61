import type { Pattern, AssignmentProperty, RestElement } from 'acorn';

/** Every name a binding pattern introduces, in source order. */
export function boundNames(pattern: Pattern | AssignmentProperty | RestElement | null): string[] {
  if (!pattern) return [];
  switch (pattern.type) {
    case 'Identifier':
      return [pattern.name];
    case 'ObjectPattern':
      return pattern.properties.flatMap(boundNames);
    case 'ArrayPattern':
      return pattern.elements.flatMap(boundNames);
    case 'Property':
      return boundNames(pattern.value);
    case 'AssignmentPattern':
      return boundNames(pattern.left);
    case 'RestElement':
      return boundNames(pattern.argument);
    default:
      return [];
  }
}
