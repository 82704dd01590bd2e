import type { BoxBody } from '../../box/index.ts'
import type { PlacedItem } from '../../job/index.ts'

/** Where the middle of a thing is: along its side from the datum, and above the floor. */
export function middleOf(body: Pick<BoxBody, 'floor'>, item: PlacedItem): { readonly alongM: number; readonly upM: number } {
  const along = item.side === 'blind end' || item.side === 'door end' ? 1 : 0
  return {
    alongM: (item.atMm[along] + item.sizeMm[along] / 2) / 1000,
    upM: (item.atMm[2] + item.sizeMm[2] / 2 - body.floor.topMm) / 1000,
  }
}

/** “1.60 m up, 0.90 m from the blind end”, of the middle of a thing. */
export function placeWords(body: BoxBody, item: PlacedItem): string {
  const { alongM, upM } = middleOf(body, item)
  const from = item.side === 'blind end' || item.side === 'door end' ? 'left side' : 'blind end'
  const across = (item.atMm[1] + item.sizeMm[1] / 2) / 1000
  if (item.side === 'roof' || item.side === 'floor')
    return `${item.side === 'roof' ? 'under the roof' : 'on the floor'}, ${alongM.toFixed(2)} m from the blind end, ${across.toFixed(2)} m from the left side`
  return `${upM.toFixed(2)} m up, ${alongM.toFixed(2)} m from the ${from}`
}
