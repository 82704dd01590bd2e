import { bareScene, boxDrawings, type Drawing, drawnBoxes, paperScene, type Scene } from '@plugstead/drawings'
import type { BoxBody } from '@plugstead/engine/box'
import type { BoxBuild, Side } from '@plugstead/engine/job'
import type { Finding, QuestionId } from '@plugstead/engine/kernel'
import type { Block, Inline, Sheet } from '../content.ts'
import { findingGroups, groupWords } from '../finding-rows.ts'
import { type BookInput, drawingWidth, widthOf } from '../results.ts'
import { col, plain } from '../words.ts'

/** One box that is built, with its drawings; what every sheet about the steel is written from. */
export interface BuiltBox {
  readonly id: string
  readonly name: string
  readonly build: BoxBuild
  /** Null where it is not drawn. */
  readonly body: BoxBody | null
  readonly drawings: readonly Drawing[]
  readonly glass: BookInput['glass']
  /** Where several boxes are built, what concerns none of them stands with the first. */
  readonly first: boolean
}

export function builtBoxes(input: BookInput): readonly BuiltBox[] {
  const { job, design, assessment } = input
  const drawn = drawnBoxes({ job, design, assessment })
  return design.builds.map((build, i) => {
    const of = drawn.find((d) => d.build === build)
    return {
      id: build.box,
      name: `box ${build.box}`,
      build,
      body: of?.body ?? null,
      drawings: of === undefined ? [] : boxDrawings(of),
      glass: input.glass,
      first: i === 0,
    }
  })
}

/** What a finding is about, without the name of its box. */
const thingOf = (f: Finding, box: string): string | null =>
  f.subject.startsWith(`${box} `) ? f.subject.slice(box.length + 1) : null

/**
 * Findings of one question about one box, dealt out to the sheets on which their subject stands. Whatever no other sheet asks for stands
 * on the first.
 */
export function dealt<Name extends string>(
  input: BookInput,
  box: BuiltBox,
  question: QuestionId,
  codes: Readonly<Record<Name, readonly string[]>>,
): (sheet: Name | 'rest') => readonly Finding[] {
  const boxes = input.design.builds.map((b) => b.box)
  const own = input.assessment.findings.filter((f) => {
    if (f.question !== question) return false
    const of = boxes.filter((id) => f.subject === id || thingOf(f, id) !== null).toSorted((a, b) => b.length - a.length)[0]
    return of === undefined ? box.first : of === box.id
  })
  const sheetOf = (f: Finding): string =>
    (Object.keys(codes) as Name[]).find((name) => codes[name].some((c) => f.code === `${question}/${c}`)) ?? 'rest'
  return (sheet) => own.filter((f) => sheetOf(f) === sheet)
}

/** Verdicts with who decides, worst first, like ones in one row. Nothing where there is none. */
export function judgedBlocks(box: BuiltBox, findings: readonly Finding[]): readonly Block[] {
  if (findings.length === 0 || box.glass !== undefined) return []
  return [
    {
      k: 'table',
      small: true,
      columns: [col('', 20), col('about', 30), col('what is so', -1)],
      rows: findingGroups(findings).map((group): Inline[] => [
        group.mark,
        thingOf(group.first, box.id) ?? group.first.subject,
        groupWords(group, false),
      ]),
    },
  ]
}

export const cautionBlocks = (findings: readonly Finding[]): readonly Block[] =>
  [...new Set(findings.flatMap((f) => (f.caution === undefined ? [] : [f.caution])))].map((text) => ({
    k: 'strip',
    text: plain(text),
  }))

/** The drawing of that name on paper; nothing where it was not drawn or is empty. */
export function drawingBlocks(
  box: BuiltBox,
  wanted: (id: string) => boolean,
  heightMm: number,
): readonly (Block & { readonly k: 'drawing' })[] {
  return box.drawings
    .filter((d) => wanted(d.id) && d.items.length > 0)
    .map((d) => ({
      k: 'drawing',
      scene:
        box.glass === undefined ? paperScene(d, { widthMm: widthOf(box), heightMm }) : glassScene(d, drawingWidth(box), heightMm),
    }))
}

/** The same, each under its own title. */
export const titledDrawings = (box: BuiltBox, wanted: (id: string) => boolean, heightMm: number): readonly Block[] =>
  box.drawings
    .filter((d) => wanted(d.id))
    .flatMap((d): readonly Block[] => [{ k: 'head', text: d.title }, ...drawingBlocks(box, (id) => id === d.id, heightMm)])

/** As large as the width allows, and no higher than on paper but for a screen that is wider: letters keep their size while the drawing shrinks. */
function glassScene(drawing: Drawing, widthMm: number, paperHeightMm: number): Scene {
  const heightMm = paperHeightMm * Math.max(1, widthMm / widthOf({}))
  let scale = drawing.trueSize === true ? 1 : LEAST_SCALE
  let { scene } = bareScene(drawing, scale)
  for (let round = 0; round < FITTINGS; round++) {
    const over = Math.max(scene.sizeMm[0] / widthMm, scene.sizeMm[1] / heightMm)
    if (over <= 1) break
    scale *= Math.max(over, 1.01)
    scene = bareScene(drawing, scale).scene
  }
  return scene
}
const LEAST_SCALE = 2
const FITTINGS = 8

/** Scale as the tag names it: that of all drawings on the sheet, or that each says its own. */
export function scaleOf(blocks: readonly Block[]): string {
  const said = new Set(blocks.flatMap((b) => (b.k === 'drawing' ? [scaleWords(b.scene)] : [])))
  if (said.size === 0) return 'not to scale'
  return said.size === 1 ? [...said][0]! : 'as each drawing says'
}

/** Foot of a drawing: its scale stands there in words. */
function scaleWords(scene: Scene): string {
  const foot = scene.items.findLast((item) => item.kind === 'text' && /^1:[\d.]+$/.test(item.text))
  return foot?.kind === 'text' ? foot.text : 'not to scale'
}

/** A sheet of blocks; none without blocks. */
export function sheetOf(
  part: QuestionId,
  head: string,
  sub: string,
  blocks: readonly Block[],
  sides: readonly Side[] = [],
): readonly Sheet[] {
  if (blocks.length === 0) return []
  return [{ part, head, sub, scale: scaleOf(blocks), key: true, blocks, ...(sides.length === 0 ? {} : { sides }) }]
}

export const SIDE_WORDS: Readonly<Record<Side, string>> = {
  left: 'left long side',
  right: 'right long side',
  'blind end': 'blind end',
  'door end': 'door end',
  roof: 'roof',
  floor: 'floor',
}

/** Whole millimetres, with a true minus. */
export const mm = (value: number): string => `${value < -0.5 ? '−' : ''}${Math.abs(Math.round(value))}`
