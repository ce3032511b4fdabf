"""Asks over a plain socket as a controller would: python3 line_client.py HOST PORT REQUEST…"""
import socket
import sys

with socket.create_connection((sys.argv[1], int(sys.argv[2])), timeout=30) as connection:
    replies = connection.makefile("r", encoding="ascii", newline="\n")
    for request in sys.argv[3:]:
        connection.sendall(request.encode("ascii") + b"\n")
        print(replies.readline(), end="")
