/** Paints and coatings of a box's outside: rows of table `surface-optics` of `air`. */
export const PAINTS = [
  'white TiO2 coating, clean',
  'white epoxy, clean',
  'white enamel, clean',
  'white paint, soiled 3 years',
  'white factory coil coat (fluoropolymer) new',
  'same, 3 years',
  'light grey, beige',
  'aluminium paint',
  'green, orange, mid blue',
  'red oxide, brown',
  'dark blue',
  'black',
  'weathering steel, rust coat',
  'galvanised, new bright',
  'galvanised, weathered',
  'galvanised, heavily oxidised',
  'Al-Zn coated sheet, new',
] as const
export type Paint = (typeof PAINTS)[number]

/** What a colour's words say, the first that fits; the darkest of a family counts for all that are called dark. */
const COLOURS: readonly (readonly [RegExp, Paint])[] = [
  [/\b(rusty?|unpainted|bare steel|weathering steel)\b/, 'weathering steel, rust coat'],
  [/\b(galvani[sz]ed|zinc-coated)\b/, 'galvanised, weathered'],
  [/\b(silver|alumini?um)\b/, 'aluminium paint'],
  [/\b(black|anthracite|charcoal)\b/, 'black'],
  [/\b(dark|navy|deep)\b/, 'dark blue'],
  [/\b(off-white|cream|ivory|beige|sand|(light|pale)\s+\w+)\b/, 'light grey, beige'],
  [/\bwhite\b.*\b(reflecting|reflective|cool)\b|\b(reflecting|reflective|cool)\b.*\bwhite\b/, 'white TiO2 coating, clean'],
  [/\bwhite\b/, 'white epoxy, clean'],
  [/\b(red|brown|oxide|maroon)\b/, 'red oxide, brown'],
  [/\b(green|orange|blue|yellow|gr[ae]y)\b/, 'green, orange, mid blue'],
]

/** Paint of roof and walls in words of a person; null where the words name no colour, or more than one for one place. */
export interface PaintsSaid {
  readonly roof: Paint
  readonly walls: Paint
}

/**
 * “white, roof reflecting”: colours stand between commas; one that names the roof holds for it alone. The words are sure, or nothing is
 * read: two colours for one place are none.
 */
export function paintsSaid(words: string): PaintsSaid | null {
  const whole = PAINTS.find((p) => p === words.trim())
  if (whole !== undefined) return { roof: whole, walls: whole }
  const found: { walls: Set<Paint>; roof: Set<Paint> } = { walls: new Set(), roof: new Set() }
  let reflects = false
  for (const part of words.toLowerCase().split(/[,;]|\band\b|\bwith\b/)) {
    const paint = COLOURS.find(([pattern]) => pattern.test(part))?.[1]
    const roof = /\broof\b/.test(part)
    if (paint !== undefined) found[roof ? 'roof' : 'walls'].add(paint)
    else if (roof && /\b(reflecting|reflective|cool)\b/.test(part)) reflects = true
  }
  const [walls, another] = found.walls
  if (walls === undefined || another !== undefined || found.roof.size > 1) return null
  const white = walls === 'white epoxy, clean'
  if (reflects && (!white || found.roof.size > 0)) return null
  const [roof = reflects ? 'white TiO2 coating, clean' : walls] = found.roof
  return { roof, walls }
}
