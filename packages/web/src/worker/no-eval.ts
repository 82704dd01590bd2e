/** The content security policy forbids code made from text; without this the schema library would try it first. Imported before it. */
Object.assign(globalThis, { __zod_globalConfig: { jitless: true } })
