import { isMap, isScalar, isSeq, LineCounter, type Node, parseDocument } from 'yaml'
import { ok, type Problem, type Result } from '../../kernel/index.ts'
import type { NetworkFile } from './file-types.ts'
import { type Say, shown } from './keyed-map.ts'
import { fileFrom } from './read-sections.ts'

/** The largest network file that is read. */
export const NETWORK_BYTES_MOST = 5_000_000
const DEPTH_MOST = 24

/**
 * Reads a network file (docs/network-format.md). All problems at once, each with its line; never throws on any text.
 * Nothing is converted in silence: quantities carry their unit, and what is not known here is a problem.
 */
export function readNetwork(text: string): Result<NetworkFile> {
  const found: Problem[] = []
  if (text.length > NETWORK_BYTES_MOST) {
    return {
      ok: false,
      problems: [
        {
          code: 'network/too-large',
          found: `${text.length} characters`,
          wanted: `at most ${NETWORK_BYTES_MOST}`,
          mend: 'Name a network file.',
        },
      ],
    }
  }
  const deep = tooDeepAt(text)
  if (deep !== null) {
    return {
      ok: false,
      problems: [
        {
          code: 'network/too-deep',
          line: deep,
          found: `nesting deeper than ${DEPTH_MOST}`,
          wanted: 'a network file',
          mend: 'Name a network file.',
        },
      ],
    }
  }
  const counter = new LineCounter()
  const document = parseDocument(text, { lineCounter: counter, uniqueKeys: true, version: '1.2' })
  for (const e of document.errors) {
    found.push({
      code: 'network/yaml',
      line: counter.linePos(e.pos[0]).line,
      column: counter.linePos(e.pos[0]).col,
      found: e.code,
      wanted: 'YAML',
      mend: e.message.split('\n')[0] ?? '',
    })
  }
  const say: Say = (node, code, path, wanted, mend, shownAs) => {
    const at = node?.range?.[0]
    found.push({
      code,
      path,
      found: shownAs ?? shown(node),
      wanted,
      mend,
      ...(at === undefined ? {} : { line: counter.linePos(at).line, column: counter.linePos(at).col }),
    })
  }
  if (found.length > 0) return { ok: false, problems: found }
  if (/(^|[\s[{,:-])[*][^\s,\]}]+/m.test(text) && JSON.stringify(document.errors) !== '' && hasAlias(document.contents)) {
    return {
      ok: false,
      problems: [
        { code: 'network/alias', found: 'an alias (*name)', wanted: 'values written out', mend: 'Write the value out.' },
      ],
    }
  }
  const root = document.contents
  if (!isMap(root)) {
    say(
      root as Node | null,
      'network/not-a-network',
      '',
      'a network file, first key “plugstead-network: 1”',
      'Name a network file; its shape is in docs/network-format.md.',
    )
    return { ok: false, problems: found }
  }
  const value = fileFrom(root, say)
  return found.length > 0 ? { ok: false, problems: found } : ok(value)
}

function tooDeepAt(text: string): number | null {
  let depth = 0
  let line = 1
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i)
    if (c === 10) {
      line++
      let indent = 0
      while (text.charCodeAt(i + 1 + indent) === 32 || text.charCodeAt(i + 1 + indent) === 45) indent++
      if (indent > 8 * DEPTH_MOST) return line
    }
    if (c === 91 || c === 123) depth++
    if (c === 93 || c === 125) depth--
    if (depth > DEPTH_MOST) return line
  }
  return null
}

function hasAlias(node: unknown): boolean {
  if (isMap(node)) return node.items.some((p) => hasAlias(p.key) || hasAlias(p.value))
  if (isSeq(node)) return node.items.some(hasAlias)
  return node !== null && typeof node === 'object' && 'source' in node && !isScalar(node)
}
