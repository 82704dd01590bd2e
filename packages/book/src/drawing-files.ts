import { boxDrawings, boxParts, drawnBoxes, dxf, glb, patternDrawings, sheetScene, svg } from '@plugstead/drawings'
import type { JobFile } from './job-lists.ts'
import type { BookInput } from './results.ts'
import { airScenes } from './sheets/air-scenes.ts'
import { oneLineScenes } from './sheets/one-line.ts'

/** Block between head and foot of a sheet: Letter and A4 share one, Tabloid and A3 the other. */
const BLOCKS_MM = {
  letter: { widthMm: 185, heightMm: 205 },
  a4: { widthMm: 185, heightMm: 205 },
  tabloid: { widthMm: 390, heightMm: 215 },
  a3: { widthMm: 390, heightMm: 215 },
} as const

export type DrawingPaper = keyof typeof BLOCKS_MM

export interface DrawingFile extends JobFile {
  readonly box: string
  readonly drawing: string
  readonly title: string
  readonly of: 'sheet' | 'cut file' | 'solid'
}

/** Every drawing of every box that is laid out: sheets to scale, what is cut at true size, its year of air, the whole as a solid. */
export function drawingFiles(input: BookInput, paper: DrawingPaper): readonly DrawingFile[] {
  const lines = oneLineScenes(input)
  return drawnBoxes(input).flatMap((drawn): readonly DrawingFile[] => {
    const { box } = drawn.build
    const file = (drawing: string, title: string, of: DrawingFile['of'], ending: string, make: JobFile['make']): DrawingFile => ({
      kind: `${box}.${drawing}.${ending}`,
      box,
      drawing,
      title,
      of,
      make,
    })
    const page = (d: Parameters<typeof sheetScene>[0]) => svg.render(sheetScene(d, BLOCKS_MM[paper]))
    return [
      ...boxDrawings(drawn).map((d) => file(d.id, d.title, 'sheet', 'svg', () => page(d))),
      ...patternDrawings(drawn).flatMap((d) => [
        file(d.id, d.title, 'cut file', 'dxf', () => dxf.render(d)),
        file(d.id, d.title, 'cut file', 'svg', () => page(d)),
      ]),
      ...oneLines(lines, box).map(({ name, scene }) =>
        file(name, 'One-line diagram, with volts', 'sheet', 'svg', () => svg.render(scene)),
      ),
      ...airScenes(input, drawn, BLOCKS_MM[paper].widthMm).map(({ name, title, scene }) =>
        file(name, title, 'sheet', 'svg', () => svg.render(scene())),
      ),
      file('solid', 'The box with what is built in', 'solid', 'glb', () => glb.render(boxParts(drawn), box)),
    ]
  })
}

type OneLines = ReturnType<typeof oneLineScenes>

/** One-line diagrams of a box by file name: with the phase where there is more than one, with a number where one sheet does not do. */
function oneLines(
  all: OneLines,
  box: string,
): readonly { readonly name: string; readonly scene: OneLines[number]['scenes'][number] }[] {
  const here = all.filter((l) => l.box === box)
  return here.flatMap(({ phase, scenes }) =>
    scenes.map((scene, i) => ({
      name: [
        'one-line',
        ...(here.length > 1 ? [phase.replace(/[^\w-]+/g, '-')] : []),
        ...(scenes.length > 1 ? [String(i + 1)] : []),
      ].join('-'),
      scene,
    })),
  )
}
