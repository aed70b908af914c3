package org.holdfast.desktop.view;

import java.util.OptionalDouble;
import org.holdfast.desktop.state.PartState;

/**
 * How a part is drawn in the schematic.
 *
 * @param state its state
 * @param share contact fraction of an interface, 0 to 1; empty where there is none
 * @param words the state as read aloud
 */
record SchematicState(PartState state, OptionalDouble share, String words) {}
