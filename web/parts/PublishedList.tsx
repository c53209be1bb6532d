import { createMemo, For, Show } from 'solid-js'
import { jobFindings } from '../../api/domain/job/findings/findings.ts'
import { type FindingModel, findingModel } from '../../api/domain/record/finding-model.ts'
import { type FindingSpeech, findingGroups, findingSpeech } from '../../api/domain/words/finding-text.ts'
import { FINDING_WORDS } from '../../api/domain/words/finding-words.ts'
import { type JobHere, useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { showTime } from '../state/show.ts'

/** Each figure with its limit, source and edition, and where it lies: the same as the record prints. */
export const PublishedList = () => {
  const { t, language } = usePhone()
  const job = useJob()
  const findings = createMemo(() => jobFindings(job.view()).map(findingModel))
  const words = () =>
    findingSpeech(FINDING_WORDS[language()], t.entry(), (hash) => {
      const line = job.line(hash)
      return line ? showTime(line.entry.occurredAt, job.localNow()) : ''
    })
  const groups = createMemo(() => findingGroups(findings(), words()))
  return (
    <>
      <p class="small">{words().say('intro')}</p>
      <Show when={findings().length === 0}>
        <p>{words().say('none')}</p>
      </Show>
      <For each={groups()}>
        {(group) => (
          <fieldset class="block" data-finding={group[0]!.of}>
            <h3 class="block-head">{`${words().name(group[0]!.of)}: ${words().limit(group[0]!)}`}</h3>
            {/* A publication is named in the language that it was published in. */}
            <For each={words().sources(group[0]!)}>
              {(source) => (
                <p class="small" translate="no">
                  {source}
                </p>
              )}
            </For>
            <ul class="plain-list">
              <For each={group}>{(finding) => <li>{lineOf(finding, words(), job, t)}</li>}</For>
            </ul>
          </fieldset>
        )}
      </For>
    </>
  )
}

/** `Load 2, 11:00: 0.186 lb/ft²/h … · inside; station’s wind, not at the slab`. */
const lineOf = (
  finding: FindingModel,
  words: FindingSpeech,
  job: JobHere,
  t: ReturnType<typeof usePhone>['t'],
): string => {
  const names = job.names(t)
  const where = finding.parts
    ? finding.parts.map((part) => names.part(part) ?? part).join(', ')
    : finding.load
      ? (names.load(finding.load) ?? '')
      : words.say('wholeJob')
  const when = finding.at === undefined ? [] : [showTime(finding.at, job.localNow())]
  const place = [where, ...when].filter((part) => part !== '').join(', ')
  return `${place}: ${words.value(finding)} · ${[words.verdict(finding), ...words.notes(finding)].join('; ')}`
}
