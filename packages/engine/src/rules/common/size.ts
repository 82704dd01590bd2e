import type { SizeName } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'

/** Name of a size as a person writes it, from a table's first cell: `12` → `12 AWG`, `250` → `250 kcmil`, 2.5 → `2.5 mm2`. */
export function sizeName(cell: string | number): SizeName {
  if (typeof cell === 'number') return `${cell} mm2`
  if (cell.includes('/')) return `${cell} AWG`
  return Number(cell) >= FIRST_KCMIL ? `${cell} kcmil` : `${cell} AWG`
}

/** The table's first cell of a size name: `12 AWG` → `12`, `16 mm2` → 16. @throws Fault `rules/size` */
export function sizeCell(name: SizeName): string | number {
  const m = /^(\S+) (AWG|kcmil|mm2)$/.exec(name)
  if (m?.[1] === undefined) throw new Fault('rules/size', name)
  return m[2] === 'mm2' ? Number(m[1]) : m[1]
}

/** AWG numbers end at 40, kcmil names begin at 250. */
const FIRST_KCMIL = 100
