/** The program's version: what every answer and every page says. */
export const VERSION = '0.1.0'
