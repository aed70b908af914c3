/**
 * What is chosen and shown in the window, as immutable records with a history, and the words and keys that every view
 * shares. Knows no toolkit but its properties; uses nothing of {@code viewmodel}, {@code view} or {@code render}.
 */
package org.holdfast.desktop.state;
