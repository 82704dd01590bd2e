import { strToU8, zipSync } from 'fflate'

export type Look = 'plain' | 'money' | 'percent' | 'bold' | 'bold money' | 'number'

/** A number, words, or a live formula beside the value that it has now. Words are always words, however they begin. */
export type Cell =
  | null
  | string
  | number
  | { readonly words: string; readonly look: Look }
  | { readonly number: number; readonly look: Look }
  | { readonly formula: string; readonly value: number; readonly look: Look }

export interface WorkbookSheet {
  /** At most 31 characters, none of : \ / ? * [ ] */
  readonly name: string
  /** Widths in characters. */
  readonly widths: readonly number[]
  readonly rows: readonly (readonly Cell[])[]
}

/** Office Open XML, sheets of one workbook. Same sheets, same bytes: no clock, no name of a machine or person. @source ECMA-376. Provenance: memory */
export function workbook(sheets: readonly WorkbookSheet[]): Uint8Array {
  const files: Record<string, string> = {
    '[Content_Types].xml': `${XML}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${SHEET_TYPE}.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="${SHEET_TYPE}.styles+xml"/>${sheets.map((_, i) => `<Override PartName="/xl/worksheets/sheet${i + 1}.xml" ContentType="${SHEET_TYPE}.worksheet+xml"/>`).join('')}</Types>`,
    '_rels/.rels': `${XML}<Relationships xmlns="${PACKAGE}"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    'xl/workbook.xml': `${XML}<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>${sheets.map((s, i) => `<sheet name="${escaped(s.name)}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`).join('')}</sheets><calcPr calcId="0" fullCalcOnLoad="1"/></workbook>`,
    'xl/_rels/workbook.xml.rels': `${XML}<Relationships xmlns="${PACKAGE}">${sheets.map((_, i) => `<Relationship Id="rId${i + 1}" Type="${OFFICE}/worksheet" Target="worksheets/sheet${i + 1}.xml"/>`).join('')}<Relationship Id="rId${sheets.length + 1}" Type="${OFFICE}/styles" Target="styles.xml"/></Relationships>`,
    'xl/styles.xml': STYLES,
  }
  for (const [i, sheet] of sheets.entries()) files[`xl/worksheets/sheet${i + 1}.xml`] = sheetXml(sheet)
  return zipSync(Object.fromEntries(Object.entries(files).map(([path, words]) => [path, strToU8(words)])), { mtime: FIRST_DAY })
}

const XML = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main'
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships'
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006/relationships'
const SHEET_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml'
/** The first a zip can say, in whatever zone the machine stands: the zip holds the hands of a clock, not a moment. */
const FIRST_DAY = new Date(1980, 0, 1)

const LOOKS: readonly Look[] = ['plain', 'money', 'percent', 'bold', 'bold money', 'number']
/** Words that a person who edits the cell must not turn into a formula. */
const QUOTED = LOOKS.length
const FORMATS: Readonly<Record<Look, number>> = { plain: 0, money: 4, percent: 10, bold: 0, 'bold money': 4, number: 0 }
const STYLES = `${XML}<styleSheet xmlns="${MAIN}"><fonts count="2"><font><sz val="10"/><name val="Calibri"/></font><font><b/><sz val="10"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="${LOOKS.length + 1}">${LOOKS.map((l) => `<xf numFmtId="${FORMATS[l]}" fontId="${l.startsWith('bold') ? 1 : 0}" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyFont="1"/>`).join('')}<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0" quotePrefix="1"/></cellXfs></styleSheet>`

function sheetXml({ widths, rows }: WorkbookSheet): string {
  const cols = widths.map((w, i) => `<col min="${i + 1}" max="${i + 1}" width="${w}" customWidth="1"/>`).join('')
  const body = rows.map(
    (row, r) => `<row r="${r + 1}">${row.map((cell, c) => cellXml(cell, `${columnName(c)}${r + 1}`)).join('')}</row>`,
  )
  return `${XML}<worksheet xmlns="${MAIN}"><cols>${cols}</cols><sheetData>${body.join('')}</sheetData></worksheet>`
}

function cellXml(cell: Cell, at: string): string {
  if (cell === null) return ''
  if (typeof cell === 'string') return wordsXml(cell, at, 0)
  if (typeof cell === 'number') return `<c r="${at}"><v>${cell}</v></c>`
  const style = LOOKS.indexOf(cell.look)
  if ('words' in cell) return wordsXml(cell.words, at, style)
  if ('formula' in cell) return `<c r="${at}" s="${style}"><f>${escaped(cell.formula)}</f><v>${cell.value}</v></c>`
  return `<c r="${at}" s="${style}"><v>${cell.number}</v></c>`
}

const wordsXml = (words: string, at: string, style: number): string =>
  `<c r="${at}" s="${LIKE_FORMULA.test(words) ? QUOTED : style}" t="inlineStr"><is><t xml:space="preserve">${escaped(words)}</t></is></c>`
/** What a spreadsheet would take for a formula when it is typed. */
export const LIKE_FORMULA = /^[=+\-@\t\r]/

// Characters that XML cannot hold are left out.
const escaped = (words: string): string =>
  words
    // biome-ignore lint/suspicious/noControlCharactersInRegex: exactly those are meant
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')

/** 0 is A, 26 is AA. */
export function columnName(index: number): string {
  let name = ''
  for (let left = index + 1; left > 0; left = Math.floor((left - 1) / 26))
    name = String.fromCharCode(65 + ((left - 1) % 26)) + name
  return name
}
