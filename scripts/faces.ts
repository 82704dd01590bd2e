/**
 * Writes how wide the letters of the book's faces are, read from the font files that come with it, into a module that the book measures by:
 * what is set in a terminal and in a browser is measured the same, and no font is loaded for it.
 *
 *   node scripts/faces.ts           writes packages/book/src/faces.generated.ts
 *   node scripts/faces.ts --check   writes nothing; exit 1 when the module does not agree with the font files
 */
import { dirname, join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { readFace } from './face-widths.ts'
import { writeOrCheck } from './generated.ts'

export const facesPath = join(dirname(fileURLToPath(import.meta.url)), '../packages/book/src/faces.generated.ts')

const FACES = {
  text: '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  strong: '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf',
  plate: '@expo-google-fonts/barlow-semi-condensed/600SemiBold/BarlowSemiCondensed_600SemiBold.ttf',
} as const

/** Last code point there is. */
const LAST = 0x10ffff

/** The text of the generated module: for each run of neighbouring code points, the first and the widths of all, in thousandths of the size. */
export function facesModule(): string {
  const faces = Object.entries(FACES).map(([name, file]) => {
    const face = readFace(file)
    const runs: { readonly from: number; readonly widths: number[] }[] = []
    for (let code = 0; code <= LAST; code += 1) {
      if (!face.has(code)) continue
      const width = face.widthEm(code) * 1000
      if (!Number.isInteger(width)) throw new Error(`${file}: code ${code} is ${width} thousandths wide`)
      const last = runs.at(-1)
      if (last !== undefined && last.from + last.widths.length === code) last.widths.push(width)
      else runs.push({ from: code, widths: [width] })
    }
    return `  ${name}: {\n${runs.map(({ from, widths }) => `    ${from}: [${widths.join(',')}],`).join('\n')}\n  },`
  })
  return [
    '// Written by scripts/faces.ts from the font files that the book is set in. Run: npm run faces',
    `export type FaceName = ${Object.keys(FACES)
      .map((name) => `'${name}'`)
      .join(' | ')}`,
    '',
    'export const faces: Readonly<Record<FaceName, Readonly<Record<number, readonly number[]>>>> = {',
    ...faces,
    '}',
    '',
  ].join('\n')
}

if (process.argv[1] !== undefined && resolve(process.argv[1]) === fileURLToPath(import.meta.url))
  writeOrCheck(facesPath, facesModule(), 'npm run faces')
