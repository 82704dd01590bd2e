/** Name of a file made from `source`: `jobs/yard.yaml` and `book.pdf` give `yard.book.pdf`. */
export const outputName = (source: string, kind: string): string =>
  `${source.replace(/^.*[/\\]/, '').replace(/\.(ya?ml|json)$/i, '')}.${kind}`
