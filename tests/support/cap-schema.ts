import { readFile } from 'node:fs/promises'
import { validateXML } from 'xmllint-wasm'

const schema = await readFile(new URL('../published/cap/CAP-v1.2.xsd', import.meta.url), 'utf8')

/** What the published schema of CAP 1.2 finds wrong with messages. */
export async function capFaults(...messages: readonly string[]): Promise<readonly string[]> {
  const { errors } = await validateXML({
    xml: messages.map((contents, i) => ({ fileName: `message-${i}.xml`, contents })),
    schema: { fileName: 'CAP-v1.2.xsd', contents: schema },
  })
  return errors.map(({ message: fault }) => fault)
}
