import type { Block, Sheet } from '@plugstead/book/sheets'
import { type Item, type Scene, thingCovers } from '@plugstead/drawings'
import { rulesOf } from '@plugstead/engine/assess'
import type { AtWork } from '../at-work.ts'
import type { Leads, RoomAsked, RoomBlock, RoomDrawing, RoomView } from '../protocol.ts'
import { type Named, namesOf } from './leads.ts'
import { roomSheets } from './room-sheets.ts'

/** Size of the lettering on paper, that all of a drawing is measured by. */
const LETTERING_MM = 2.65

/** One sheet of a question's room: words and figures of the book, laid out for a screen, with where each of them leads. */
export function roomView(at: AtWork, asked: RoomAsked): RoomView | null {
  const pxPerMm = asked.letterPx / LETTERING_MM
  const { design, assessment } = at.found
  const sheets = roomSheets(asked.question, {
    ...{ job: at.job, design, assessment, rules: rulesOf(at.job, at.shop) },
    glass: { widthMm: asked.widthPx / pxPerMm },
  })
  const shown = Math.min(asked.sheet, (sheets?.length ?? 0) - 1)
  const sheet = sheets?.[shown]
  if (sheets === null || sheet === undefined) return null
  const names = namesOf(at, asked.question)
  const box = boxOf(at, sheet)
  const named = (name: string): Named => names(name, box)
  return {
    sheets: sheets.map((s) => titleOf(s, sheets)),
    shown,
    sub: sheet.sub,
    blocks: sheet.blocks.flatMap((block) => onGlass(at, block, box, named, pxPerMm)),
  }
}

/** Where two sheets have one head, what sets them apart stands behind it. */
const titleOf = (sheet: Sheet, all: readonly Sheet[]): string =>
  all.filter((s) => s.head === sheet.head).length > 1 ? `${sheet.head}: ${sheet.sub}` : sheet.head

/** The box a sheet is of, as its second line says; else the first. */
function boxOf(at: AtWork, sheet: Sheet): string {
  const boxes = at.job.boxes.map((b) => b.id).toSorted((a, b) => b.length - a.length)
  return boxes.find((id) => sheet.sub.startsWith(`box ${id}`)) ?? at.job.boxes[0]?.id ?? ''
}

function onGlass(at: AtWork, block: Block, box: string, named: (name: string) => Named, pxPerMm: number): readonly RoomBlock[] {
  switch (block.k) {
    case 'para':
    case 'head':
    case 'strip':
    case 'facts':
    case 'lists':
    case 'labels':
      return [block]
    case 'table':
      return [{ ...block, leads: block.rows.map((row) => leadsOf(named, headOf(row[0]))) }]
    case 'panel':
      return [{ ...block, leads: waysOf(at, box, named) }]
    case 'drawing':
      return [{ k: 'drawing', view: drawingOf(block.scene, named, pxPerMm) }]
    // Derivations unfold in their leaf; what is about paper stays on paper.
    case 'working':
    case 'family':
    case 'contents':
    case 'gap':
      return []
  }
}

/** Words at the head of a row name what the row is about: those in strong type, or all of them. */
function headOf(cell: Extract<Block, { readonly k: 'table' }>['rows'][number][number] | undefined): string | null {
  if (cell === undefined || typeof cell === 'string') return cell ?? null
  const strong = cell.find((span) => typeof span !== 'string' && span[0] === 'b')
  return strong === undefined ? null : (strong[1] ?? null)
}

function leadsOf(named: (name: string) => Named, name: string | null): Leads {
  if (name === null) return {}
  const { line: _line, ...leads } = named(name)
  return leads
}

function waysOf(at: AtWork, box: string, named: (name: string) => Named): Readonly<Record<string, Leads>> {
  const panel = at.found.assessment.results.circuits.boxes.find((b) => b.box === box)?.panel
  return Object.fromEntries(
    (panel?.ways ?? []).flatMap((way) => (way.circuit === null ? [] : [[String(way.way), leadsOf(named, way.circuit)] as const])),
  )
}

/** A scene with the place of everything in it that leads somewhere. Two items of one thing, a circuit and its machine, are one place. */
function drawingOf(scene: Scene, named: (name: string) => Named, pxPerMm: number): RoomDrawing {
  const keyOf = (of: string): string => named(of).thing?.id ?? of
  const items = scene.items.map((item): Item => (item.of === undefined ? item : { ...item, of: keyOf(item.of) }))
  return {
    widthPx: scene.sizeMm[0] * pxPerMm,
    heightPx: scene.sizeMm[1] * pxPerMm,
    pxPerMm,
    said: scene.said,
    items,
    places: thingCovers(items).flatMap((cover) => {
      const { line, ...leads } = named(cover.of)
      if (leads.thing === undefined && leads.working === undefined) return []
      return [
        {
          id: cover.of,
          x: cover.left * pxPerMm,
          y: cover.top * pxPerMm,
          w: (cover.right - cover.left) * pxPerMm,
          h: (cover.bottom - cover.top) * pxPerMm,
          said: line === undefined ? cover.words.join(', ') : `${line.letters}, ${line.what}`,
          verdict: line?.verdict ?? null,
          ...leads,
        },
      ]
    }),
  }
}
