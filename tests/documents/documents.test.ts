import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'

const documents = ['README.md', 'DEVELOPERS.md', 'api/slices/README.md', 'sample-site/README.md']
const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> }
const topLevel = /^(api|web|tests|sample-site|\.ci|\.github)\//

/** What a document shows as code: single words between backticks, and the lines of its code blocks. */
function codeOf(text: string): readonly string[] {
  const blocks = [...text.matchAll(/```[a-z]*\n([\s\S]*?)```/g)].flatMap(([, block = '']) =>
    block.split('\n'),
  )
  const spans = [...text.replaceAll(/```[\s\S]*?```/g, '').matchAll(/`([^`\n]+)`/g)].map(
    ([, span = '']) => span,
  )
  return [...blocks, ...spans]
}

/** Paths of the project that a piece of code names; patterns and placeholders name none. */
function pathsIn(code: string): readonly string[] {
  return code
    .split(/[\s,;'"()]+/)
    .map((word) => word.replace(/[.:]$/, ''))
    .filter((word) => topLevel.test(word) && !/[<>*{}…#]/.test(word))
}

describe.each(documents)('%s', (name) => {
  const text = readFileSync(name, 'utf8')
  const code = codeOf(text)

  it('names only npm commands that exist', () => {
    const named = code.flatMap((line) =>
      [...line.matchAll(/\bnpm (?:run )?([a-z][a-z:-]*)/g)].map(([, one = '']) => one),
    )
    const missing = named.filter((one) => !(one in scripts) && !['ci', 'install'].includes(one))
    expect(missing).toEqual([])
  })

  it('names only paths that exist', () => {
    expect(code.flatMap(pathsIn).filter((path) => !existsSync(path))).toEqual([])
  })

  it('links only to files that exist', () => {
    const links = [...text.matchAll(/\]\(([^)#\s]+)[^)]*\)/g)].map(([, link = '']) => link)
    const broken = links.filter((link) => !/^https?:/.test(link) && !existsSync(join(dirname(name), link)))
    expect(broken).toEqual([])
  })
})

describe('the readers above', () => {
  it('see what is planted before them', () => {
    const planted = 'Run `npm run nonsense`, see `api/none.ts`.\n```sh\nnpm start -- --site web/none\n```\n'
    expect(codeOf(planted)).toEqual(['npm start -- --site web/none', '', 'npm run nonsense', 'api/none.ts'])
    expect(codeOf(planted).flatMap(pathsIn)).toEqual(['web/none', 'api/none.ts'])
  })
})

describe('the project', () => {
  it('has the agreed top level and no path of one machine in it', () => {
    for (const name of ['README.md', 'DEVELOPERS.md', 'LICENSE', 'package.json', 'tsconfig.json'])
      expect(existsSync(name)).toBe(true)
  })
})
