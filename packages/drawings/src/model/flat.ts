import type { Drawing, Layer, Outline, Round, Swing } from './drawing.ts'

/** What a cutting table reads of a drawing: true lines by layer, no letters, none twice. */
export function flatLines(drawing: Drawing): readonly (Outline | Round | Swing)[] {
  const seen = new Set<string>()
  return drawing.items.flatMap((item): readonly (Outline | Round | Swing)[] => {
    if (item.kind !== 'outline' && item.kind !== 'round' && item.kind !== 'swing') return []
    if (item.line === 'none') return []
    const key = keyOf(item)
    if (seen.has(key)) return []
    seen.add(key)
    return [item]
  })
}

/** The same for lines that lie on one another: corners in order of place, whichever end they began at. */
function keyOf(item: Outline | Round | Swing): string {
  const at = (p: readonly number[]): string => p.map((n) => n.toFixed(3)).join(',')
  if (item.kind === 'round') return `o ${item.layer} ${at(item.atMm)} ${item.radiusMm.toFixed(3)}`
  if (item.kind === 'swing') return `s ${item.layer} ${at([...item.atMm, item.radiusMm, item.fromDeg, item.toDeg])}`
  const corners = item.pointsMm.map(at)
  return `l ${item.layer} ${item.closed} ${corners.toSorted().join(' ')}`
}

export const layersOf = (items: readonly { readonly layer: Layer }[], order: readonly Layer[]): readonly Layer[] =>
  order.filter((layer) => items.some((item) => item.layer === layer))
