import { inflateSync } from 'node:zlib'

/** The words of a PDF in the order they are drawn: glyphs of its strings, read back by the table of each font (ISO 32000, 9.10.3; memory). */
export function pdfWords(pdf: Buffer): string {
  const whole = pdf.toString('latin1')
  const objects = new Map([...whole.matchAll(/(?:^|\n)(\d+) 0 obj\n([\s\S]*?)\nendobj/g)].map((m) => [m[1]!, m[2]!]))
  const tables = new Map<string, ReadonlyMap<string, string>>()
  for (const [, name, font] of whole.matchAll(/\/(f\d+) (\d+) 0 R/g)) {
    const table = /\/ToUnicode (\d+) 0 R/.exec(objects.get(font!) ?? '')?.[1]
    if (table !== undefined) tables.set(name!, lettersOf(streamOf(objects.get(table) ?? '') ?? ''))
  }
  return [...objects.values()]
    .map(streamOf)
    .filter((stream): stream is string => stream !== null && / T[fJjm]\b/.test(stream) && stream.includes('BT'))
    .map((stream) => wordsOf(stream, tables))
    .join('\n')
}

function streamOf(object: string): string | null {
  const body = /stream\r?\n([\s\S]*?)\r?\nendstream/.exec(object)?.[1]
  if (body === undefined) return null
  try {
    return inflateSync(Buffer.from(body, 'latin1')).toString('latin1')
  } catch {
    return body
  }
}

const lettersOf = (table: string): ReadonlyMap<string, string> =>
  new Map(
    [...table.matchAll(/<([0-9A-F]{4})> <([0-9A-F]+)>/g)].map(([, glyph, letters]) => [
      glyph!,
      Buffer.from(letters!, 'hex').swap16().toString('utf16le'),
    ]),
  )

function wordsOf(stream: string, tables: ReadonlyMap<string, ReadonlyMap<string, string>>): string {
  let table: ReadonlyMap<string, string> = new Map()
  let words = ''
  for (const [token, font, hex, plain] of stream.matchAll(
    /\/(f\d+) [\d.]+ Tf|<([0-9A-Fa-f]+)>|\(((?:[^\\)]|\\[\s\S])*)\)|\bET\b/g,
  )) {
    if (font !== undefined) table = tables.get(font) ?? new Map()
    else if (token === 'ET') words += '\n'
    else {
      const glyphs =
        hex?.toUpperCase() ??
        Buffer.from(unescaped(plain ?? ''), 'latin1')
          .toString('hex')
          .toUpperCase()
      words += (glyphs.match(/.{4}/g) ?? []).map((glyph) => table.get(glyph) ?? '').join('')
    }
  }
  return words
}

const ESCAPES: Readonly<Record<string, string>> = { n: '\n', r: '\r', t: '\t', b: '\b', f: '\f' }
const unescaped = (words: string): string =>
  words.replace(/\\([0-7]{1,3}|[\s\S])/g, (_, c: string) =>
    /^[0-7]/.test(c) ? String.fromCharCode(Number.parseInt(c, 8)) : (ESCAPES[c] ?? c),
  )
