import { useEffect, useRef, useState } from 'preact/hooks';

/** ms without a sign of it until a drag is taken to have left the window. */
const gone = 500;

const holdsFiles = ({ dataTransfer }: DragEvent): boolean => dataTransfer?.types.includes('Files') ?? false;

/** Files dropped anywhere on the page while `active`. @returns whether some are held over it */
export function useFileDrop(active: boolean, take: (files: readonly File[]) => void): boolean {
  const [isOver, setOver] = useState(false);
  const latest = useRef(take);
  latest.current = take;
  useEffect(() => {
    if (!active) return undefined;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const over = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      // Else the browser would leave the page for the file.
      event.preventDefault();
      setOver(true);
      clearTimeout(timer);
      timer = setTimeout(() => setOver(false), gone);
    };
    const drop = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      clearTimeout(timer);
      setOver(false);
      latest.current([...(event.dataTransfer?.files ?? [])]);
    };
    addEventListener('dragover', over);
    addEventListener('drop', drop);
    return () => {
      clearTimeout(timer);
      setOver(false);
      removeEventListener('dragover', over);
      removeEventListener('drop', drop);
    };
  }, [active]);
  return isOver;
}
