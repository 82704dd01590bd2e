/** Every line of the program's own text keeps within this many characters. */
export const WIDTH = 80

/** `text` in lines of at most `width`, the following ones indented by `hang`. A word longer than a line is cut. */
export function wrapped(
  text: string,
  options: { readonly indent?: number; readonly hang?: number; readonly width?: number } = {},
): string {
  const { indent = 0, width = WIDTH } = options
  const { hang = indent } = options
  return text
    .split('\n')
    .flatMap((paragraph) => wrappedLines(paragraph, indent, hang, width))
    .join('\n')
}

function wrappedLines(paragraph: string, indent: number, hang: number, width: number): readonly string[] {
  const lines: string[] = []
  let line = ' '.repeat(indent)
  let empty = true
  const newLine = () => {
    lines.push(line)
    line = ' '.repeat(hang)
    empty = true
  }
  for (const word of paragraph.split(/[ \t]+/).filter((part) => part !== '')) {
    let rest = [...word]
    if (!empty && charCount(line) + 1 + rest.length > width) newLine()
    while (rest.length > width - charCount(line) - (empty ? 0 : 1)) {
      const room = width - charCount(line)
      line += rest.slice(0, room).join('')
      rest = rest.slice(room)
      newLine()
    }
    line += (empty ? '' : ' ') + rest.join('')
    empty = false
  }
  if (!empty || lines.length === 0) lines.push(line.trimEnd())
  return lines
}

/** Characters as a terminal counts them: code points without combining marks. */
export function charCount(text: string): number {
  return [...text.replace(/\p{M}/gu, '')].length
}

export function padded(text: string, width: number, side: 'left' | 'right' = 'left'): string {
  const gap = ' '.repeat(Math.max(0, width - charCount(text)))
  return side === 'left' ? text + gap : gap + text
}

/** `label` in a column of its own, `text` beside it; a label too long for the column stands above. */
export function labelled(label: string, text: string, column: number, indent = 0): string {
  const lines = wrapped(text, { indent: indent + column }).split('\n')
  const margin = ' '.repeat(indent)
  if (charCount(label) >= column) return [margin + label, ...lines].join('\n')
  return [margin + padded(label, column) + (lines[0] ?? '').slice(indent + column), ...lines.slice(1)].join('\n').trimEnd()
}
