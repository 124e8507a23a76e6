import { leftText, type Going } from './going.ts';

/** Work that lasts: what it is, how far, how long it still takes, and how to stop it. */
export function GoingLine(props: {
  text: string;
  going: Pick<Going, 'left_s'> | null;
  /** Left out where it cannot be stopped. */
  onStop?: () => void;
}): React.ReactElement {
  const { text, going, onStop } = props;
  return (
    <p className="aside-line">
      {text}
      {going === null ? '' : leftText(going)}
      {onStop === undefined ? (
        ' …'
      ) : (
        <>
          {' '}
          <button type="button" className="link" onClick={onStop}>
            Stop
          </button>
        </>
      )}
    </p>
  );
}
