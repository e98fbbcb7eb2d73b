import { createHash } from 'node:crypto'
import type { Context } from 'hono'
import { type ReportFileName, type ReportIssue, reportFiles, reportIssueSchema } from '#contract/reports.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { brokenCharacter, hasWholeCharacters } from '#domain/whole-characters.ts'

const names = Object.keys(reportFiles) as ReportFileName[]

interface ReceivedFile {
  readonly name: ReportFileName
  readonly sha256: string
  readonly bytes: Uint8Array
}

/** The form that a page sends, with the hashes that the bytes really have. */
export async function readIssue(
  context: Context,
): Promise<Outcome<{ readonly manifest: ReportIssue['manifest']; readonly files: readonly ReceivedFile[] }>> {
  const form = await context.req.formData().catch(() => null)
  const issue = form?.get('issue')
  const parsed = reportIssueSchema.safeParse(typeof issue === 'string' ? jsonOf(issue) : null)
  if (!form || !parsed.success)
    return reject(
      ...(parsed.error?.issues ?? []).map(({ path: at, message }) => ({
        code: 'body-unreadable',
        column: at.join('.'),
        message: `${at.join('.') || 'The form, in its field issue'}: ${message}.`,
      })),
    )
  if (!hasWholeCharacters(parsed.data)) return reject(brokenCharacter)
  const files: ReceivedFile[] = []
  const issues: Issue[] = []
  for (const name of names) {
    const sent = form.get(name)
    const bytes =
      sent instanceof Blob ? new Uint8Array(await sent.arrayBuffer()) : new TextEncoder().encode(sent ?? '')
    const sha256 = createHash('sha256').update(bytes).digest('hex')
    if (bytes.length === 0)
      issues.push({ code: 'file-missing', column: name, message: `${name} is empty or missing.` })
    else if (sha256 !== parsed.data.sha256[name])
      issues.push({
        code: 'other-bytes',
        column: name,
        value: sha256,
        expected: parsed.data.sha256[name],
        message: `${name} arrived with SHA-256 ${sha256}, not ${parsed.data.sha256[name]}: it was changed or broken off on the way. Send it again.`,
      })
    else files.push({ name, sha256, bytes })
  }
  return issues.length > 0 ? reject(...issues) : accept({ manifest: parsed.data.manifest, files })
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
