import type { Drawing, Note, Outline, Round, Swing } from './model/drawing.ts'
import { LAYERS, type Layer } from './model/drawing.ts'
import { flatLines, layersOf } from './model/flat.ts'

/** A group of a DXF file: code and value. */
type Group = readonly [code: number, value: string | number]

/**
 * A drawing at true size as ASCII DXF of release 2000, millimetres, one layer for each operation: closed outlines as closed LWPOLYLINEs
 * with bulges for their arcs, holes as CIRCLEs, no line twice. Same drawing, same bytes.
 * @source DXF reference of release 2000: HEADER, TABLES, BLOCKS, ENTITIES, OBJECTS. Provenance: memory
 */
export const dxf = { mimeType: 'image/vnd.dxf', render }

function render(drawing: Drawing): string {
  const lines = flatLines(drawing)
  const notes = drawing.items.filter((item): item is Note => item.kind === 'note' && item.layer === 'text')
  const layers = layersOf([...lines, ...notes], LAYERS)
  // Handles 1 to FF are for tables and blocks; entities begin after.
  let next = 0x100
  const handle = (): string => (next++).toString(16).toUpperCase()
  const entities = [...lines.flatMap((item) => entityOf(item, handle())), ...notes.flatMap((note) => lettersOf(note, handle))]
  const groups: readonly Group[] = [
    ...section('HEADER', headerOf(drawing, next)),
    ...section('TABLES', tablesOf(layers)),
    ...section('BLOCKS', [...block('*Model_Space', '20', '21', '1F'), ...block('*Paper_Space', '24', '25', '1B')]),
    ...section('ENTITIES', entities),
    ...section('OBJECTS', objects()),
    [0, 'EOF'],
  ]
  return `${groups.map(([code, value]) => `${String(code).padStart(3)}\n${typeof value === 'number' ? figure(code, value) : value}`).join('\n')}\n`
}

/** Whole numbers where the code wants them; else nine digits behind the point at most, and no exponent. */
function figure(code: number, value: number): string {
  if ((code >= 60 && code < 80) || (code >= 90 && code < 100) || (code >= 270 && code < 290)) return String(value)
  const text = value.toFixed(9).replace(/0+$/, '')
  const whole = text.endsWith('.') ? `${text}0` : text
  return whole === '-0.0' ? '0.0' : whole
}

const section = (name: string, inside: readonly Group[]): readonly Group[] => [
  [0, 'SECTION'],
  [2, name],
  ...inside,
  [0, 'ENDSEC'],
]

const MILLIMETRES = 4

function headerOf(drawing: Drawing, seed: number): readonly Group[] {
  const [low, high] = extents(drawing)
  return [
    [9, '$ACADVER'],
    [1, 'AC1015'],
    [9, '$DWGCODEPAGE'],
    [3, 'ANSI_1252'],
    [9, '$INSUNITS'],
    [70, MILLIMETRES],
    [9, '$MEASUREMENT'],
    [70, 1],
    [9, '$EXTMIN'],
    [10, low[0]],
    [20, low[1]],
    [30, 0],
    [9, '$EXTMAX'],
    [10, high[0]],
    [20, high[1]],
    [30, 0],
    [9, '$HANDSEED'],
    [5, seed.toString(16).toUpperCase()],
  ]
}

function extents(drawing: Drawing): readonly [readonly [number, number], readonly [number, number]] {
  const xs: number[] = []
  const ys: number[] = []
  for (const item of flatLines(drawing)) {
    const around = item.kind === 'outline' ? 0 : item.radiusMm
    for (const [x, y] of item.kind === 'outline' ? item.pointsMm : [item.atMm]) {
      xs.push(x - around, x + around)
      ys.push(y - around, y + around)
    }
  }
  const edge = (values: readonly number[], of: (...n: number[]) => number): number => (values.length === 0 ? 0 : of(...values))
  return [
    [edge(xs, Math.min), edge(ys, Math.min)],
    [edge(xs, Math.max), edge(ys, Math.max)],
  ]
}

/** Colours by number, so that a table tells the layers apart: the same operation always bears the same. */
const colourOf = (layer: Layer): number => LAYERS.indexOf(layer) + 1

function tablesOf(layers: readonly Layer[]): readonly Group[] {
  const entry = (kind: string, handle: string, owner: string, marker: string, name: string, rest: readonly Group[]): Group[] => [
    [0, kind],
    [kind === 'DIMSTYLE' ? 105 : 5, handle],
    [330, owner],
    [100, 'AcDbSymbolTableRecord'],
    [100, marker],
    [2, name],
    ...rest,
  ]
  const table = (name: string, handle: string, count: number, entries: readonly Group[]): readonly Group[] => [
    [0, 'TABLE'],
    [2, name],
    [5, handle],
    [330, '0'],
    [100, 'AcDbSymbolTable'],
    [70, count],
    ...entries,
    [0, 'ENDTAB'],
  ]
  const solid = (name: string, handle: string): Group[] =>
    entry('LTYPE', handle, '5', 'AcDbLinetypeTableRecord', name, [
      [70, 0],
      [3, ''],
      [72, 65],
      [73, 0],
      [40, 0],
    ])
  const layer = (name: string, handle: string, colour: number): Group[] =>
    entry('LAYER', handle, '2', 'AcDbLayerTableRecord', name, [
      [70, 0],
      [62, colour],
      [6, 'CONTINUOUS'],
    ])
  return [
    ...table('VPORT', '8', 0, []),
    ...table('LTYPE', '5', 3, [...solid('ByBlock', '14'), ...solid('ByLayer', '15'), ...solid('CONTINUOUS', '16')]),
    ...table('LAYER', '2', layers.length + 1, [
      ...layer('0', '10', 7),
      ...layers.flatMap((name, i) => layer(name, (0x40 + i).toString(16).toUpperCase(), colourOf(name))),
    ]),
    ...table(
      'STYLE',
      '3',
      1,
      entry('STYLE', '11', '3', 'AcDbTextStyleTableRecord', 'STANDARD', [
        [70, 0],
        [40, 0],
        [41, 1],
        [50, 0],
        [71, 0],
        [42, 2.5],
        [3, 'txt'],
        [4, ''],
      ]),
    ),
    ...table('VIEW', '6', 0, []),
    ...table('UCS', '7', 0, []),
    ...table('APPID', '9', 1, entry('APPID', '12', '9', 'AcDbRegAppTableRecord', 'ACAD', [[70, 0]])),
    ...table('DIMSTYLE', 'A', 1, [...entry('DIMSTYLE', '27', 'A', 'AcDbDimStyleTableRecord', 'STANDARD', [[70, 0]])]),
    ...table('BLOCK_RECORD', '1', 2, [
      ...entry('BLOCK_RECORD', '1F', '1', 'AcDbBlockTableRecord', '*Model_Space', []),
      ...entry('BLOCK_RECORD', '1B', '1', 'AcDbBlockTableRecord', '*Paper_Space', []),
    ]),
  ]
}

const block = (name: string, begin: string, end: string, owner: string): readonly Group[] => [
  [0, 'BLOCK'],
  [5, begin],
  [330, owner],
  [100, 'AcDbEntity'],
  [8, '0'],
  [100, 'AcDbBlockBegin'],
  [2, name],
  [70, 0],
  [10, 0],
  [20, 0],
  [30, 0],
  [3, name],
  [1, ''],
  [0, 'ENDBLK'],
  [5, end],
  [330, owner],
  [100, 'AcDbEntity'],
  [8, '0'],
  [100, 'AcDbBlockEnd'],
]

const objects = (): readonly Group[] => [
  [0, 'DICTIONARY'],
  [5, 'C'],
  [330, '0'],
  [100, 'AcDbDictionary'],
  [281, 1],
  [3, 'ACAD_GROUP'],
  [350, 'D'],
  [0, 'DICTIONARY'],
  [5, 'D'],
  [330, 'C'],
  [100, 'AcDbDictionary'],
  [281, 1],
]

const entity = (kind: string, handle: string, layer: Layer, marker: string): readonly Group[] => [
  [0, kind],
  [5, handle],
  [330, '1F'],
  [100, 'AcDbEntity'],
  [8, layer],
  [100, marker],
]

function entityOf(item: Outline | Round | Swing, handle: string): readonly Group[] {
  switch (item.kind) {
    case 'outline':
      return [
        ...entity('LWPOLYLINE', handle, item.layer, 'AcDbPolyline'),
        [90, item.pointsMm.length],
        [70, item.closed ? 1 : 0],
        [43, 0],
        ...item.pointsMm.flatMap(([x, y], i): readonly Group[] => {
          const bulge = item.bulges?.[i] ?? 0
          const at: readonly Group[] = [
            [10, x],
            [20, y],
          ]
          return bulge === 0 ? at : [...at, [42, bulge]]
        }),
      ]
    case 'round':
      return [
        ...entity('CIRCLE', handle, item.layer, 'AcDbCircle'),
        [10, item.atMm[0]],
        [20, item.atMm[1]],
        [30, 0],
        [40, item.radiusMm],
      ]
    case 'swing':
      return [
        ...entity('ARC', handle, item.layer, 'AcDbCircle'),
        [10, item.atMm[0]],
        [20, item.atMm[1]],
        [30, 0],
        [40, item.radiusMm],
        [100, 'AcDbArc'],
        [50, item.fromDeg],
        [51, item.toDeg],
      ]
  }
}

/** Letters on the steel are of a size a person reads there. */
const LETTERS_MM = 12

function lettersOf(note: Note, handle: () => string): readonly Group[] {
  return note.items.flatMap((item): readonly Group[] => {
    if (item.kind !== 'text') return []
    return [
      ...entity('TEXT', handle(), note.layer, 'AcDbText'),
      [10, note.atMm[0]],
      [20, note.atMm[1]],
      [30, 0],
      [40, LETTERS_MM],
      [1, plainLetters(item.text)],
      [100, 'AcDbText'],
    ]
  })
}

/** Signs beyond ASCII as the file writes them: \\U+ and four digits. */
const plainLetters = (words: string): string =>
  [...words]
    .map((c) => (c.codePointAt(0)! < 128 ? c : `\\U+${c.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`))
    .join('')
