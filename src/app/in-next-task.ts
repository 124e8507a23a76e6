/**
 * Does something soon, in a task of its own: a press of a key or a picture that is due comes before it. Without the pause that a timer
 * has in a page that is not looked at.
 * @returns takes it back
 */
export function inNextTask(does: () => void): () => void {
  const { port1, port2 } = new MessageChannel();
  port1.addEventListener('message', () => {
    port1.close();
    does();
  });
  port1.start();
  port2.postMessage(null);
  return () => port1.close();
}
