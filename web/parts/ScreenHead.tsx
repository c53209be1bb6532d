import { usePhone } from '../state/phone.ts'

/** The board on top of a screen, with the way back to the jobs. */
export const ScreenHead = (props: { title: string }) => {
  const { t } = usePhone()
  return (
    <div class="board screen-head">
      <a class="button" href="/" aria-label={t('jobs')}>
        <span aria-hidden="true">←</span> {t('jobs')}
      </a>
      <h1>{props.title}</h1>
    </div>
  )
}
