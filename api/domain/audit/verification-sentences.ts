import { type AuditVerification, fitsWhole } from './verification.ts'

/** What came of checking the audit record, a sentence a line, the finding first. */
export function verificationSentences(found: AuditVerification): readonly string[] {
  const { entries, head, firstBreak, recordFaults, recordFaultCount } = found
  const sentences: string[] = []
  if (firstBreak)
    sentences.push(
      `The audit record does not fit from entry ${firstBreak.number} on. ${firstBreak.sentence}`,
      'What stands before it fits. Only the first place is told; keep the data file as it is, and look for a copy from before.',
    )
  else if (entries === 0)
    sentences.push('The audit record has no entry yet: nothing has changed since it began.')
  else sentences.push(`All ${entries} entries of the audit record fit to each other.`)
  if (recordFaultCount > 0)
    sentences.push(
      `${recordFaultCount} kept record version${recordFaultCount === 1 ? ' is' : 's are'} not as the audit record has ${recordFaultCount === 1 ? 'it' : 'them'}${recordFaultCount > recordFaults.length ? `; the first ${recordFaults.length}` : ''}:`,
      ...recordFaults.map(({ sentence }) => sentence),
    )
  else sentences.push(`${found.recordsCompared} kept record versions are as their entries say.`)
  if (found.recordsBefore > 0)
    sentences.push(
      `${found.recordsBefore} record versions are from before the audit record began; of them it has one hash together.`,
    )
  sentences.push(...found.notices)
  if (fitsWhole(found) && head.number > 0)
    sentences.push(
      `It ends with entry ${head.number}, hash ${head.hash}. Whoever can write the data file and the note of its end beside it can write both anew: keep this line somewhere else, and check against it later.`,
    )
  return sentences
}
