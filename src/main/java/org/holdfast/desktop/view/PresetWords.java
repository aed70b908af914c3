package org.holdfast.desktop.view;

import javafx.util.StringConverter;
import org.holdfast.desktop.state.WindowPreset;

/** Windows named by purpose, in a list to choose from; a window of the person's own has no name. */
final class PresetWords extends StringConverter<WindowPreset> {

    @Override
    public String toString(WindowPreset preset) {
        return preset == null ? "own window" : preset.words();
    }

    @Override
    public WindowPreset fromString(String words) {
        throw new UnsupportedOperationException("presets are chosen, not written");
    }
}
