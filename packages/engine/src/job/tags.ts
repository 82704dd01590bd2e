const RANGE = /^(.*?)(\d{1,4})-(\d{1,4})([A-Za-z]*)$/

/** How many a tag's range names: “G1-4C” is 4; null for a tag that is not a range. */
export function rangeCount(tag: string): number | null {
  const match = RANGE.exec(tag)
  if (!match) return null
  const count = Number(match[3]) - Number(match[2]) + 1
  return count >= 2 ? count : null
}

/**
 * Tags of the plugs of a row. One: the tag itself. “G1-4C” for four: G1C, G2C, G3C, G4C. Otherwise TAG.1, TAG.2 and so on.
 * @param count ≥ 1
 */
export function expandTag(tag: string, count: number): readonly string[] {
  if (count === 1) return [tag]
  const match = RANGE.exec(tag)
  if (match && rangeCount(tag) === count)
    return Array.from({ length: count }, (_, i) => `${match[1]}${Number(match[2]) + i}${match[4]}`)
  return Array.from({ length: count }, (_, i) => `${tag}.${i + 1}`)
}
