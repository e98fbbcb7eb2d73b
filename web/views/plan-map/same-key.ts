/** Whether two keys, or each part of two lists, are the same objects. */
export function sameKey(left: unknown, right: unknown): boolean {
  if (Array.isArray(left) && Array.isArray(right)) return left.every((part, place) => part === right[place])
  return left === right
}
