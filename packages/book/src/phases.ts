import type { Sheet } from './content.ts'

/**
 * A box that is the same in several phases has each of its sheets once, with the phases it holds for. Two sheets are one where all that
 * stands on them agrees, but for the name of the phase.
 */
export function onceForPhases(sheets: readonly Sheet[], phases: readonly string[]): readonly Sheet[] {
  if (phases.length < 2) return sheets
  const names = [...phases].toSorted((a, b) => b.length - a.length).map((p) => p.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
  const inSub = new RegExp(`^(box [^,]+, )(${names.join('|')})(?=[,:]|$)`)
  const inWords = new RegExp(`·(${names.join('|')})(?![\\p{L}\\d])`, 'gu')
  const groups = new Map<string, { readonly sheet: Sheet; readonly phases: string[] }>()
  for (const sheet of sheets) {
    const phase = inSub.exec(sheet.sub)?.[2]
    const key =
      phase === undefined
        ? `${groups.size}`
        : JSON.stringify({ ...sheet, sub: sheet.sub.replace(inSub, '$1…') }).replaceAll(inWords, '·…')
    const same = groups.get(key)
    if (same === undefined) groups.set(key, { sheet, phases: phase === undefined ? [] : [phase] })
    else if (phase !== undefined) same.phases.push(phase)
  }
  return [...groups.values()].map(({ sheet, phases: own }) =>
    own.length < 2 ? sheet : { ...sheet, sub: sheet.sub.replace(inSub, (_, box: string) => `${box}${listed(own)}`) },
  )
}

const listed = (words: readonly string[]): string => `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
