import type { Assumption } from './types.ts'

/** What was assumed, in words, and where the document would tell it. */
export interface AssumedWords {
  readonly said: string
  readonly path: string
}

/** Untold places that are judged at their ends or by a table, without one value taken that could be said. */
const UNTOLD: readonly (readonly [RegExp, string])[] = [
  [/^needs\.machines\.(.+)\.powerFactor$/, 'power factor of $1, both ends of what its kind has'],
  [/^boxes\[\d+\]\.light$/, 'the box’s own light: what it takes'],
  [/^boxes\[\d+\]\.heater$/, 'the box’s own heater: what it takes'],
  [/^boxes\[\d+\]\.fan$/, 'the box’s own fan: what it takes'],
  [/^boxes\[\d+\]\.control$/, 'the box’s own controls: what they take'],
  [/^boxes\[\d+\]\.receptacle$/, 'the box’s own outlet: what it takes'],
  [/^boxes\[\d+\]\.paint$/, 'how bright the box is painted inside'],
  [/^boxes\[\d+\]\.inside-hot$/, 'how hot it gets in the box'],
  [/^boxes\[\d+\]\.inside-cold$/, 'how cold it gets in the box'],
  [/^facts\.site\.temporary$/, 'whether this counts as a temporary installation'],
  [/^facts\.site\.access\.unload$/, 'how the box comes off the truck there'],
  [/^facts\.site\.climate\.designMax$/, 'the hottest air the place is designed for'],
  [/^facts\.site\.wind\.pressure-is$/, 'which pressure the wind figure is'],
  [/^facts\.site\.wind\.level$/, 'whether the wind figure is for service or for strength'],
  [/^facts\.site\.wind\.coefficient$/, 'the wind’s coefficient on the box'],
  [/^facts\.site\.wind\.height$/, 'the height the wind figure is for'],
  [/^facts\.(?:site\.)?soil\b.*$/, 'the soil: what it resists'],
  [/^facts\.site\.(.*\.)?soil\b.*$/, 'the soil: what it resists'],
  [/^choices\.cords\.(.+)\.jacketMin$/, 'how cold the cord of $1 may get'],
  [/^needs\.money\.interest$/, 'the interest'],
  [/^shop\.hours$/, 'the shop’s hours'],
  [/loss-chance$/, 'how likely the job is a loss'],
  [/\.x-over-r$/, 'how inductive the transformer is, both ends of what its size has'],
]

/** Every assumption of `paths` in words, each of them once; what stands for a place with no word of its own is that place. */
export function assumedWords(paths: readonly string[], assumed: readonly Assumption[]): readonly AssumedWords[] {
  const found = new Map<string, AssumedWords>()
  for (const path of paths) {
    const said = assumed.find((a) => a.path === path)?.said ?? untold(path)
    if (!found.has(said)) found.set(said, { said, path })
  }
  return [...found.values()]
}

function untold(path: string): string {
  const [, task] = /^facts\.tasks\.(.+)$/.exec(path) ?? []
  if (task !== undefined) return `how long it takes: ${task.replaceAll('-', ' ')}`
  const [what, words] = UNTOLD.find(([what]) => what.test(path)) ?? []
  const [match] = what?.exec(path) ?? []
  return match === undefined ? path : match.replace(what!, words!)
}
