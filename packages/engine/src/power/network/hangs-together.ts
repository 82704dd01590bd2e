import type { Node } from 'yaml'
import type { FileCase, NetworkFile } from './file-types.ts'
import type { Say } from './keyed-map.ts'

export function hangsTogether(
  name: string,
  one: FileCase,
  configurations: NetworkFile['configurations'],
  root: Node,
  say: Say,
): void {
  const fed = new Set<string>(one.sources.map((s) => s.node))
  const ends = [...one.lines, ...one.transformers, ...one.regulators, ...one.switches.filter((s) => s.closed)]
  for (let grew = true; grew; ) {
    grew = false
    for (const e of ends) {
      for (const [x, y] of [
        [e.from, e.to],
        [e.to, e.from],
      ] as const) {
        if (!fed.has(x) || fed.has(y)) continue
        fed.add(y)
        grew = true
      }
    }
  }
  if (one.sources.length === 0) say(root, 'network/no-source', `cases.${name}`, 'at least one source', 'Add “sources”.', 'none')
  for (const l of one.lines) {
    if (configurations[l.configuration] === undefined)
      say(
        root,
        'network/configuration',
        `cases.${name}.lines.${l.id}`,
        `one of ${Object.keys(configurations).join(', ')}`,
        'Name a configuration of this file.',
        `“${l.configuration}”`,
      )
  }
  for (const l of one.loads)
    if (!fed.has(l.node))
      say(
        root,
        'network/not-fed',
        `cases.${name}.loads`,
        'a node that a source reaches',
        'Join it by a line, transformer or closed switch.',
        `“${l.node}”`,
      )
}
